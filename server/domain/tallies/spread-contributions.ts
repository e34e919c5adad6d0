import type { GainKind } from '../ability/attempt-kind.ts'
import type { PlainDate } from '../calendar/plain-date.ts'
import type { Contribution } from './contribution.ts'
import type { TallyCounts } from './sheet-counts.ts'

/** The unit id under which sheets of days without a unit are gathered. */
export const NO_UNIT = '00000000-0000-0000-0000-000000000000'

/** What is to be added to one tally. */
export interface TallyDelta extends TallyCounts {
  readonly unitId: string
  readonly versionId: string
  readonly grain: 'year' | 'month' | 'day'
  readonly start: PlainDate
  /** Empty: none. */
  readonly arm: string
  readonly kind: GainKind
  readonly attempts: number
  readonly passes: number
  readonly recorded: number
  readonly stopped: number
  readonly people: readonly PersonDelta[]
}

interface PersonDelta {
  readonly role: 'sponsor' | 'grader'
  readonly soldierId: string
  readonly attempts: number
  readonly passes: number
}

/**
 * Adds up contributions at every unit above their own, in their year, month and day.
 * In: contributions; by unit its lineage, itself and all above it. Out: one delta a tally, in the order of the tallies'
 * key, so that transactions take the locks on them in one order.
 */
export function spreadContributions(
  contributions: readonly Contribution[],
  lineages: ReadonlyMap<string, readonly string[]>,
): TallyDelta[] {
  const deltas = new Map<string, TallyDelta>()
  for (const contribution of contributions) {
    const { unitId, day, versionId, kind } = contribution
    const arm = contribution.arm ?? ''
    for (const unit of unitId === null ? [NO_UNIT] : lineages.get(unitId)!) {
      for (const { grain, start } of periodsOf(day)) {
        const key = JSON.stringify([unit, versionId, grain, start, arm, kind])
        const own = { unitId: unit, versionId, grain, start, arm, kind, ...amountsOf(contribution) }
        const before = deltas.get(key)
        deltas.set(key, before ? sumOf(before, own) : own)
      }
    }
  }
  return [...deltas].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, delta]) => delta)
}

const periodsOf = (day: PlainDate) =>
  [
    { grain: 'year', start: `${day.slice(0, 4)}-01-01` },
    { grain: 'month', start: `${day.slice(0, 7)}-01` },
    { grain: 'day', start: day },
  ] as const

function amountsOf({ passed, ending, counts, sponsorId, graderId }: Contribution) {
  const result = { attempts: 1, passes: passed ? 1 : 0 }
  const sponsor = sponsorId === null ? [] : [{ role: 'sponsor' as const, soldierId: sponsorId, ...result }]
  return {
    ...result,
    recorded: ending === 'recorded' ? 1 : 0,
    stopped: ending === 'stopped' ? 1 : 0,
    ...counts,
    people: [{ role: 'grader' as const, soldierId: graderId, ...result }, ...sponsor],
  }
}

function sumOf(a: TallyDelta, b: TallyDelta): TallyDelta {
  const sum = (xs: readonly number[], ys: readonly number[]) => xs.map((x, i) => x + ys[i]!)
  return {
    ...a,
    attempts: a.attempts + b.attempts,
    passes: a.passes + b.passes,
    recorded: a.recorded + b.recorded,
    stopped: a.stopped + b.stopped,
    measures: sum(a.measures, b.measures),
    faults: sum(a.faults, b.faults),
    readings: sum(a.readings, b.readings),
    people: peopleOf([...a.people, ...b.people]),
  }
}

function peopleOf(people: readonly PersonDelta[]): PersonDelta[] {
  const byPerson = new Map<string, PersonDelta>()
  for (const one of people) {
    const key = `${one.role} ${one.soldierId}`
    const { attempts = 0, passes = 0 } = byPerson.get(key) ?? {}
    byPerson.set(key, { ...one, attempts: attempts + one.attempts, passes: passes + one.passes })
  }
  return [...byPerson.values()]
}
