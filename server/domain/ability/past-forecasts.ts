import type { AttemptKind } from './attempt-kind.ts'
import { type CandidateHistory, type CountedTest, kindAfter } from './candidate-history.ts'
import type { MeasureLayout } from './measure-layout.ts'
import { nextForecast } from './next-forecast.ts'
import { passChance } from './pass-forecast.ts'
import { quarterOf } from './quarter.ts'
import type { UnitFit } from './unit-fit.ts'

/** What would have been said of a test the day before it. */
export interface PastForecast {
  readonly testId: string
  readonly kind: AttemptKind
  readonly forecast: number
  readonly byKind: number
  readonly byLast: number
}

/** The unit's tests before a day by kind, for the first baseline. */
export class KindRates {
  private readonly counts = new Map<AttemptKind, { tests: number; passes: number }>()

  add(kind: AttemptKind, passed: boolean): void {
    const { tests, passes } = this.counts.get(kind) ?? { tests: 0, passes: 0 }
    this.counts.set(kind, { tests: tests + 1, passes: passes + Number(passed) })
  }

  /**
   * Pass rate of a kind by the rule of succession, so that one test does not make it 0 or 1 (P. S. Laplace 1774; as the mean of
   * a uniform prior's posterior, A. Gelman et al. 2013, *Bayesian Data Analysis*, 3rd ed., 2.1).
   */
  rate(kind: AttemptKind): number {
    const { tests, passes } = this.counts.get(kind) ?? { tests: 0, passes: 0 }
    return (passes + 1) / (tests + 2)
  }
}

/** Points that are enough for one figure among hundreds. */
const POINTS = 256

/**
 * The forecasts that would have been made the day before each test, from what was there then: parameters fitted to all tests
 * before the quarter, the candidate's own tests before the day.
 * In: histories; the fit to tests before a quarter's first day; which tests to do (the baselines need all). Out: by test, in order
 * of days.
 */
export function pastForecasts(
  layout: MeasureLayout,
  histories: readonly CandidateHistory[],
  fitBefore: (quarter: string) => UnitFit,
  isWanted: (test: CountedTest) => boolean = () => true,
): PastForecast[] {
  const all = histories
    .flatMap((history) => history.tests.map((test) => ({ history, test })))
    .sort((a, b) => (a.test.day < b.test.day ? -1 : a.test.day > b.test.day ? 1 : 0))
  const rates = new KindRates()
  const out: PastForecast[] = []
  for (let at = 0; at < all.length; ) {
    const { day } = all[at]!.test
    let end = at
    while (end < all.length && all[end]!.test.day === day) end += 1
    const ofDay = all.slice(at, end).map((one) => ({ ...one, kind: kindAfter(before(one.history, day), day).kind }))
    for (const { history, test, kind } of ofDay) {
      const version = layout.ofVersion.get(test.version)
      if (!version || !isWanted(test)) continue
      const past = before(history, day)
      const next = nextForecast(layout, fitBefore(quarterOf(day)), past, day, version, POINTS)
      const byKind = rates.rate(kind)
      out.push({
        testId: test.id,
        kind,
        forecast: passChance(next.posterior, next.test),
        byKind,
        byLast: lastShare(past, layout) ?? byKind,
      })
    }
    for (const { test, kind } of ofDay) rates.add(kind, test.passed)
    at = end
  }
  return out
}

/** What was there the day before. */
const before = ({ candidateId, tests, others }: CandidateHistory, day: string): CandidateHistory => ({
  candidateId,
  tests: tests.filter((test) => test.day < day),
  others: others.filter((other) => other.day < day),
})

/** Share of GO among the minors decided at the last test with marks; null: there is none. */
function lastShare({ tests }: CandidateHistory, layout: MeasureLayout): number | null {
  for (const { marks, version } of tests.toReversed()) {
    const minors = marks.slice(layout.ofVersion.get(version)?.majors.length ?? 0)
    const decided = [...minors].filter((mark) => mark !== '-')
    if (decided.length > 0) return decided.filter((mark) => mark === 'G').length / decided.length
  }
  return null
}
