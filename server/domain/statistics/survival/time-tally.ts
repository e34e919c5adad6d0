import { requireCount } from '../numeric/require-count.ts'

/** At one time from the start: how many had the event then, and how many were last seen then without it. */
export type TimeTally = { time: number; events: number; censored: number }
/** One distinct time, with how many were still at risk just before it. */
export type RiskRow = TimeTally & { atRisk: number }

/**
 * Who is still at risk at each distinct time. At a tie events come first: who is censored at a time counts as at risk
 * then.
 *
 * In: tallies in any order, a time may occur several times; times from 0 in one unit (days, say). Out: rows by rising
 * time, without empty ones.
 */
export function riskTable(tallies: readonly TimeTally[]): RiskRow[] {
  const byTime = new Map<number, RiskRow>()
  let atRisk = 0
  for (const { time, events, censored } of tallies) {
    if (!(time >= 0 && time < Infinity)) throw new RangeError(`riskTable: a time must be 0 or later, not ${time}`)
    requireCount(events, 'riskTable: events')
    requireCount(censored, 'riskTable: censored')
    if (events + censored === 0) continue
    atRisk += events + censored
    const row = byTime.get(time) ?? { time, events: 0, censored: 0, atRisk: 0 }
    byTime.set(time, { ...row, events: row.events + events, censored: row.censored + censored })
  }
  return [...byTime.values()]
    .sort((x, y) => x.time - y.time)
    .map((row) => {
      const here = { ...row, atRisk }
      atRisk -= row.events + row.censored
      return here
    })
}
