import { isDeepStrictEqual } from 'node:util'
import type { CertificationAssessment } from '../../../server/domain/assessment/types.ts'
import type { Row, SpanChange } from './prepared-sheet.ts'

interface SpanRows {
  readonly standings: readonly Row[]
  readonly retests: readonly Row[]
  readonly awards: readonly Row[]
}

const KEYS = {
  standings: ['certification_id', 'from_day'],
  retests: ['certification_id', 'standard', 'from_day'],
  awards: ['certification_id', 'sheet_id'],
} as const

/** The rows that say how a soldier stands in some certifications. */
export function spanRows(standings: readonly CertificationAssessment[], ids: ReadonlyMap<string, string>): SpanRows {
  const all = standings.map((one) => ({ ...one, certification_id: ids.get(one.certification)! }))
  return {
    standings: all.flatMap(({ certification_id, statuses }) =>
      statuses.map(({ from, through, value }) => ({
        certification_id,
        from_day: from,
        through_day: through,
        status: value.status,
        awarded_on: value.awardedOn,
        valid_through: value.validThrough,
        suspended: value.suspended,
        toward: value.toward,
        retest_open: value.retestOpen,
      })),
    ),
    retests: all.flatMap(({ certification_id, retests }) =>
      retests.map(({ from, through, value }) => ({
        certification_id,
        standard: value.standard,
        from_day: from,
        through_day: through,
        attempt: value.attempt,
        on_day: value.on,
        earliest: value.earliest,
        due: value.due,
        no_gos_in_a_row: value.noGosInARow,
        needs_review: value.needsReview,
      })),
    ),
    awards: all.flatMap(({ certification_id, earned }) =>
      earned.map(({ sheetId, awardedOn, validThrough, finishedAt }) => ({
        certification_id,
        sheet_id: sheetId,
        awarded_on: awardedOn,
        valid_through: validThrough,
        finished_at: new Date(finishedAt).toISOString(),
      })),
    ),
  }
}

/** What must be written to come from the rows before to the rows after. */
export function spanChanges(before: SpanRows, after: SpanRows): Record<keyof SpanRows, SpanChange> {
  return {
    standings: changeOf(before.standings, after.standings, KEYS.standings),
    retests: changeOf(before.retests, after.retests, KEYS.retests),
    awards: changeOf(before.awards, after.awards, KEYS.awards),
  }
}

function changeOf(before: readonly Row[], after: readonly Row[], key: readonly string[]): SpanChange {
  const keyOf = (row: Row) => key.map((column) => row[column]).join(' ')
  const old = new Map(before.map((row) => [keyOf(row), row]))
  const kept = new Set(after.map(keyOf))
  return {
    gone: before.filter((row) => !kept.has(keyOf(row))),
    now: after.filter((row) => !isDeepStrictEqual(old.get(keyOf(row)), row)),
  }
}
