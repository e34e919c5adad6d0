import { type Parsed, parseFaults, parseReadings, parseTrials } from './mark-notation.ts'
import { measureKey } from './measure-columns.ts'
import type { Fields, RowProblem } from './read-fields.ts'
import { splitAtMost } from './split-at-most.ts'
import { withDay } from './with-day.ts'

/** A standard, as far as reading its sheets needs it. */
export interface StandardToRead {
  readonly code: string
  readonly rule: { readonly trials: number }
  readonly majors: readonly { readonly code: string }[]
  readonly minors: readonly { readonly code: string; readonly gauges: readonly string[] }[]
}

type Values = Fields['values']

/** The sheet that a row says, with its measures; those of which nothing is written are left out. */
export function sheetItem(
  values: Values,
  findStandard: (name: string) => StandardToRead | null,
): { value: unknown; problems: RowProblem[] } {
  const standard = typeof values.standard === 'string' ? findStandard(values.standard) : null
  const problems: RowProblem[] = []
  const take = <Value>(key: string, parsed: Parsed<Value>): Value | undefined => {
    if ('value' in parsed) return parsed.value
    problems.push({ key, detail: `${key.replace('measure/', '').replace('/', ' ')}: ${parsed.wrong}` })
    return undefined
  }
  const minors = (standard?.minors ?? []).flatMap(({ code, gauges }) => {
    const cell = (kind: string) => values[measureKey(code, kind)]
    const trials = take(measureKey(code, ''), trialsOf(cell(''), standard!.rule.trials))
    const faults = take(measureKey(code, 'faults'), parseFaults(textOf(cell('faults'))))
    const readings = take(measureKey(code, 'readings'), parseReadings(textOf(cell('readings')), gauges))
    if (!trials || !faults || !readings) return []
    const blank = trials.length === 0 && faults.length === 0 && readings.length === 0
    return blank ? [] : [{ code, trials, faults, readings }]
  })
  const majors = (standard?.majors ?? []).flatMap(({ code }) => {
    const cell = (kind: string) => values[measureKey(code, kind)]
    const major = { mark: cell(''), faults: cell('faults'), atCall: cell('at call'), note: cell('note') }
    const written = Object.entries(major).filter(([, value]) => value !== undefined)
    return written.length === 0 ? [] : [{ code, ...Object.fromEntries(written) }]
  })
  problems.push(...measuresOfOthers(values, standard))
  return { value: { ...headOf(values), majors, minors }, problems }
}

function trialsOf(cell: unknown, trials: number): ReturnType<typeof parseTrials> {
  if (cell === undefined) return { value: [] }
  if (typeof cell === 'string') return parseTrials(cell)
  const { digits } = cell as { digits: string }
  if (digits.length < trials) {
    return {
      wrong: `The spreadsheet keeps ${digits} as a number, which loses a 0 in front. Make the column text and write all ${trials} trials.`,
    }
  }
  return parseTrials(digits)
}

const textOf = (value: unknown): string =>
  Array.isArray(value) ? value.join(';') : typeof value === 'string' ? value : ''

/** Something is written in the column of a measure that this standard has not. */
function measuresOfOthers(values: Values, standard: StandardToRead | null): RowProblem[] {
  if (!standard) return []
  const own = new Set([...standard.majors, ...standard.minors].map(({ code }) => code))
  return Object.keys(values).flatMap((key) => {
    const [, code] = /^measure\/([^/]+)/.exec(key) ?? []
    return code === undefined || own.has(code) ? [] : [{ key, detail: `"${standard.code}" has no measure "${code}".` }]
  })
}

function headOf(values: Values): Record<string, unknown> {
  const {
    uniform,
    equipment,
    sponsorPresent,
    voidKind,
    voidText,
    on,
    startedAt,
    finishedAt,
    pauses,
    acknowledged,
    ...rest
  } = values
  const head = Object.fromEntries(Object.entries(rest).filter(([key]) => !key.startsWith('measure/')))
  return {
    ...head,
    startedAt: withDay(startedAt, on),
    finishedAt: withDay(finishedAt, on),
    conditions: { uniform: uniform ?? true, equipment: equipment ?? true, sponsorPresent: sponsorPresent ?? true },
    ...((voidKind ?? voidText) === undefined ? {} : { void: { kind: voidKind ?? 'other', text: voidText ?? '' } }),
    pauses: ((pauses ?? []) as string[]).map((pause) => {
      const [from, to = '', note = ''] = splitAtMost(pause, '>', 3)
      return { from, to: to === '' ? null : to, note }
    }),
    acknowledged: ((acknowledged ?? []) as string[]).map((text) => {
      const at = text.lastIndexOf('@')
      return { rosterNumber: text.slice(0, at < 0 ? undefined : at), at: at < 0 ? '' : text.slice(at + 1) }
    }),
  }
}
