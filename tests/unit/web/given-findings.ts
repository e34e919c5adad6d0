import type { MeasureFindings, SponsorFindings } from '#contract/findings/findings.ts'
import type { GraderFindings } from '#contract/findings/graders.ts'
import type { Rate } from '#contract/findings/rate.ts'
import type { TrendFindings } from '#contract/findings/trend.ts'
import { id, standing } from './given.ts'

type Point = TrendFindings['series'][number]['points'][number]
type Sponsor = SponsorFindings['items'][number]
type Measure = MeasureFindings['items'][number]

/** A rate; its interval is only shown here, so it is a plain ten points to each side. */
export const rate = (count: number, n: number): Rate => {
  const share = n === 0 ? null : count / n
  const interval = share === null ? null : { low: Math.max(0, share - 0.1), high: Math.min(1, share + 0.1) }
  return { count, n, rate: share, interval, exact: interval, few: n < 5 }
}

export const sponsor = (attempts: number, passes: number, part: Partial<Sponsor> = {}): Sponsor => ({
  sponsorId: id(attempts),
  name: 'Ashdown, Mirela',
  grade: 'SGT',
  attempts,
  passes,
  firstAttempts: attempts,
  firstPasses: passes,
  rate: rate(passes, attempts),
  expected: passes,
  estimate: { rate: 0.6, low: 0.45, high: 0.74 },
  p: 1,
  adjustedP: attempts < 5 ? null : 1,
  differs: attempts < 5 ? 'few' : 'no',
  daysCoached: 30,
  candidates: 2,
  ...part,
})

export const grader = (part: Partial<GraderFindings['items'][number]> = {}): GraderFindings['items'][number] => ({
  graderId: id(1),
  name: 'Ashdown, Mirela',
  grade: 'SGT',
  attempts: 20,
  passes: 12,
  rate: rate(12, 20),
  severity: { value: 0.18, low: -0.06, high: 0.4 },
  correct: { rate: 0.76, low: 0.72, high: 0.8 },
  p: 0.2,
  adjustedP: 0.4,
  differs: 'no',
  twice: null,
  ...part,
})

export const measure = (code: string, noGo: number, tested: number, part: Partial<Measure> = {}): Measure => ({
  standard: standing.code,
  measure: code,
  tested,
  noGo,
  trials: tested * 3,
  incorrect: noGo * 2,
  faults: [],
  notReached: null,
  incorrectShare: null,
  versions: [1],
  current: true,
  rate: rate(noGo, tested),
  rest: null,
  ...part,
})

export const month = (name: string, count: number, n: number, part: Partial<Point> = {}): Point => ({
  month: name,
  count,
  n,
  rate: n === 0 ? null : count / n,
  low: n === 0 ? null : 0.1,
  high: n === 0 ? null : 0.7,
  beyond: null,
  chance: n === 0 ? null : 0.5,
  signals: [],
  ...part,
})
