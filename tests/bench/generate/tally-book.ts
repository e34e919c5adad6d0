import type { Contribution } from '../../../server/domain/tallies/contribution.ts'
import type { BenchUnit } from './establishment.ts'

export interface TallyRow {
  readonly id: number
  readonly unit_id: string
  readonly standard_id: string
  readonly grain: 'year' | 'month' | 'day'
  readonly start: string
  readonly arm: string
  readonly kind: string
}

export interface Tally {
  readonly row: TallyRow
  readonly measures: Map<
    string,
    { measure: string; major: boolean; tested: number; no_go: number; trials: number; incorrect: number }
  >
  readonly faults: Map<string, { measure: string; major: boolean; fault: string; count: number }>
  readonly sponsors: Map<string, { sponsor_id: string; attempts: number; passes: number }>
}

export interface TallyBook {
  add(contribution: Contribution): void
  tallies(): IterableIterator<Tally>
}

/** Adds up in memory what the product's statements would add up sheet by sheet. */
export function tallyBook(units: readonly BenchUnit[]): TallyBook {
  const parents = new Map(units.map(({ id, parent_id }) => [id, parent_id]))
  const tallies = new Map<string, Tally>()
  const tallyAt = (one: Contribution, unitId: string, grain: TallyRow['grain'], start: string): Tally => {
    const key = `${unitId} ${grain} ${start} ${one.arm} ${one.kind} ${one.standardId}`
    let tally = tallies.get(key)
    if (!tally) {
      const place = { unit_id: unitId, standard_id: one.standardId, grain, start, arm: one.arm ?? '', kind: one.kind }
      const row = { id: tallies.size + 1, ...place }
      tally = { row, measures: new Map(), faults: new Map(), sponsors: new Map() }
      tallies.set(key, tally)
    }
    return tally
  }
  return {
    add(one) {
      for (let unitId = one.unitId; unitId; unitId = parents.get(unitId) ?? null) {
        addTo(tallyAt(one, unitId, 'year', `${one.day.slice(0, 4)}-01-01`), one)
        addTo(tallyAt(one, unitId, 'month', `${one.day.slice(0, 7)}-01`), one)
        addTo(tallyAt(one, unitId, 'day', one.day), one)
      }
    },
    tallies: () => tallies.values(),
  }
}

function addTo({ measures, faults, sponsors }: Tally, { sponsorId, passed, ...one }: Contribution): void {
  for (const { measure, major, tested, noGo, trials, incorrect } of one.measures) {
    const sum = measures.get(measure)
    if (!sum) measures.set(measure, { measure, major, tested, no_go: noGo, trials, incorrect })
    else {
      sum.tested += tested
      sum.no_go += noGo
      sum.trials += trials
      sum.incorrect += incorrect
    }
  }
  for (const { measure, major, fault, count } of one.faults) {
    const key = `${measure} ${fault}`
    const sum = faults.get(key)
    if (sum) sum.count += count
    else faults.set(key, { measure, major, fault, count })
  }
  if (sponsorId === null) return
  const sum = sponsors.get(sponsorId) ?? { sponsor_id: sponsorId, attempts: 0, passes: 0 }
  sponsors.set(sponsorId, sum)
  sum.attempts += 1
  sum.passes += passed ? 1 : 0
}
