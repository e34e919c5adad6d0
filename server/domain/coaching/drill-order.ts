import type { PlainDate } from '../calendar/plain-date.ts'
import type { MeasureHistory } from './measure-history.ts'

/**
 * Why a measure is where it is: never GO so far; NO-GO in its last test; never reached by a test; GO again after a NO-GO;
 * never NO-GO.
 */
export const DRILL_REASONS = ['never-go', 'no-go-last', 'not-tested', 'go-since', 'always-go'] as const
export type DrillReason = (typeof DRILL_REASONS)[number]

export interface Drill {
  readonly measure: string
  readonly major: boolean
  readonly reason: DrillReason
  readonly tested: number
  readonly noGo: number
  /** Day of the last NO-GO; null: none. */
  readonly lastNoGo: PlainDate | null
  /** NO-GOs since the last GO. */
  readonly inARow: number
  /** The measure was NO-GO and has been GO in every test since; null: it is not so. */
  readonly improved: { readonly noGoOn: PlainDate; readonly goOn: PlainDate } | null
}

const RANK: Record<DrillReason, number> = {
  'never-go': 0,
  'no-go-last': 0,
  'not-tested': 1,
  'go-since': 2,
  'always-go': 3,
}

/**
 * In what order to drill the measures of a standard, from what happened and nothing else; it forecasts nothing.
 * First come those NO-GO when last tested: majors before minors, since one ends the test; never GO before GO at some time;
 * then the later failed, the more NO-GOs in a row, the higher the candidate's share of NO-GO, the higher the unit's among
 * first-timers. Then those no test has reached, then those GO since, both by the unit's share. Then the rest.
 * Ties keep the order of the standard.
 * In: histories in the order of the standard; the unit's share of NO-GO (0 to 1) by measure, where it is known.
 */
export function drillOrder(
  histories: readonly MeasureHistory[],
  unitShare: (measure: string) => number | null = () => null,
): Drill[] {
  const share = ({ noGo, tested }: Drill) => (tested === 0 ? 0 : noGo / tested)
  const keys = (drill: Drill) => {
    const failing = RANK[drill.reason] === 0
    return [
      RANK[drill.reason],
      failing && drill.major ? 0 : 1,
      drill.reason === 'never-go' ? 0 : 1,
      failing ? -dayNumber(drill.lastNoGo) : 0,
      -drill.inARow,
      failing ? -share(drill) : 0,
      -(unitShare(drill.measure) ?? 0),
    ]
  }
  return histories
    .map(toDrill)
    .map((drill) => ({ drill, keys: keys(drill) }))
    .sort((a, b) => firstDifference(a.keys, b.keys))
    .map(({ drill }) => drill)
}

function toDrill({ measure, major, decided }: MeasureHistory): Drill {
  const failed = decided.filter(({ go }) => !go)
  const lastNoGo = failed.at(-1)?.day ?? null
  const lastGoAt = decided.findLastIndex(({ go }) => go)
  const inARow = decided.length - 1 - lastGoAt
  const goSince = decided.slice(decided.findLastIndex(({ go }) => !go) + 1)[0]
  const improved = lastNoGo !== null && goSince ? { noGoOn: lastNoGo, goOn: goSince.day } : null
  const counts = { tested: decided.length, noGo: failed.length, lastNoGo, inARow, improved }
  return { measure, major, reason: reasonOf(decided.length, failed.length, inARow), ...counts }
}

function reasonOf(tested: number, noGo: number, inARow: number): DrillReason {
  if (tested === 0) return 'not-tested'
  if (noGo === tested) return 'never-go'
  if (inARow > 0) return 'no-go-last'
  return noGo > 0 ? 'go-since' : 'always-go'
}

const dayNumber = (day: PlainDate | null): number => (day === null ? 0 : Number(day.replaceAll('-', '')))

const firstDifference = (a: readonly number[], b: readonly number[]): number =>
  a.map((key, at) => key - b[at]!).find((difference) => difference !== 0) ?? 0
