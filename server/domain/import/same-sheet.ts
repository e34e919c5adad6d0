import { toMillis } from '../calendar/to-millis.ts'
import type { MarkedMajor, MarkedMinor } from '../scoring/types.ts'

interface Body {
  readonly startedAt: string
  readonly finishedAt: string
  readonly majors: readonly MarkedMajor[]
  readonly minors: readonly MarkedMinor[]
}

/**
 * Whether two sheets say the same, however they write it: measures of which nothing is written and blanks at the end are
 * left out, instants are compared as instants, measures and notes in any order.
 */
export const isSameSheet = (a: Body, b: Body): boolean => JSON.stringify(plain(a)) === JSON.stringify(plain(b))

function plain(body: Body): unknown {
  const majors = body.majors
    .map(({ code, mark = null, atCall = null, faults = [], ...rest }) => ({
      code,
      mark,
      atCall,
      faults: [...faults].sort(),
      note: 'note' in rest ? (rest.note ?? null) : null,
    }))
    .filter(({ mark, faults, note }) => mark !== null || faults.length > 0 || note !== null)
  const minors = body.minors
    .map(({ code, trials, faults = [], readings = [] }) => ({
      code,
      trials: trials.slice(0, trials.findLastIndex((mark) => mark !== null) + 1),
      faults: faults.map(({ trial, code: fault }) => `${trial} ${fault}`).sort(),
      readings: readings
        .map(({ trial, gauge, value, override = null }) => JSON.stringify([trial, gauge, value, override]))
        .sort(),
    }))
    .filter(({ trials, faults, readings }) => trials.length + faults.length + readings.length > 0)
  return sorted({
    ...body,
    startedAt: toMillis(body.startedAt),
    finishedAt: toMillis(body.finishedAt),
    majors: byCode(majors),
    minors: byCode(minors),
  })
}

const byCode = <One extends { readonly code: string }>(list: readonly One[]): One[] =>
  [...list].sort((a, b) => (a.code < b.code ? -1 : a.code > b.code ? 1 : 0))

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted)
  if (value === null || typeof value !== 'object') return value
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1))
  return Object.fromEntries(entries.map(([key, part]) => [key, sorted(part)]))
}
