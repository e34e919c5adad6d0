import type { TimeToCertify } from '../../contract/findings/time-to-certify.ts'
import {
  aalenJohansen,
  type CompetingTally,
  halfTime,
  type IncidencePoint,
} from '../../domain/statistics/survival/aalen-johansen.ts'
import type { TimeTally } from '../../domain/statistics/survival/time-tally.ts'
import type { CertifyTally } from '../db/findings-certify.db.ts'
import { LEVEL } from './get-basis.ts'

/** Those certified and those last seen uncertified, by days: for the comparison of how fast those still in training are. */
export const timesOf = (tallies: readonly CertifyTally[]): TimeTally[] =>
  tallies.map(({ days, certified, waiting, left }) => ({ time: days, events: certified, censored: waiting + left }))

const competing = (tallies: readonly CertifyTally[], timeOf: (one: CertifyTally) => number): CompetingTally[] =>
  tallies.map((one) => ({
    time: timeOf(one),
    events: one.certified,
    competing: one.left,
    censored: one.waiting,
  }))

type Curve = TimeToCertify['items'][number]['all']

/** The curve of a group of soldiers in the wire format, by days, and the same by tests taken. */
export function toCurve(tallies: readonly CertifyTally[]): Curve {
  const sum = (of: 'certified' | 'waiting' | 'left') => tallies.reduce((total, one) => total + one[of], 0)
  const counts = { certified: sum('certified'), waiting: sum('waiting'), left: sum('left') }
  const points = aalenJohansen(
    competing(tallies, ({ days }) => days),
    LEVEL,
  )
  const byTests = aalenJohansen(
    competing(tallies, ({ tests }) => tests),
    LEVEL,
  )
  const half = halfTime(points)
  return {
    soldiers: counts.certified + counts.waiting + counts.left,
    ...counts,
    median: half.median,
    medianInterval: { low: half.low, high: half.high },
    points: steps(points).map(({ time, atRisk, events, competing: left, censored, ...shares }) => ({
      day: time,
      atRisk,
      certified: events,
      left,
      censored,
      // A sum of shares may end a rounding above one.
      uncertified: Math.max(0, 1 - shares.incidence),
      leftShare: shares.competingIncidence,
      interval: shares.interval && { low: 1 - shares.interval.high, high: 1 - shares.interval.low },
    })),
    tests: {
      median: halfTime(byTests).median,
      counts: byTests.map(({ time, events, competing: left, censored, incidence }) => {
        return { tests: time, certified: events, left, waiting: censored, certifiedShare: incidence }
      }),
    },
  }
}

/** The points at which somebody was certified or left, and the end; those censored in between are counted at the next of them. */
function steps(points: readonly IncidencePoint[]): IncidencePoint[] {
  let censored = 0
  return points.flatMap((point, i) => {
    censored += point.censored
    if (point.events + point.competing === 0 && i < points.length - 1) return []
    const step = { ...point, censored }
    censored = 0
    return [step]
  })
}
