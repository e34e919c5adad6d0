import type { AttemptState } from './attempt-kind.ts'
import { type CandidateHistory, kindAfter } from './candidate-history.ts'
import type { MeasureLayout, VersionPlaces } from './measure-layout.ts'
import { nextForecast, nextTest } from './next-forecast.ts'
import { ownChances, passChance } from './pass-forecast.ts'
import type { UnitFit } from './unit-fit.ts'
import { unitRate } from './unit-rate.ts'

/** The chances of a candidate in several tests of one standard to come. */
export interface ChancesAhead {
  /** How the points of what is known of the candidate weigh; they add up to 1. */
  readonly weights: ArrayLike<number>
  /** The chance to pass at each point, by how many of the tests to come were NO-GO before. */
  readonly pass: readonly ArrayLike<number>[]
  /** What the first of them rests on: the model, or the unit's pass rate in that kind of attempt. */
  readonly basis: 'model' | 'baseline'
}

/** Points that are enough for one candidate among many: within 0.005 of the full number in the demo unit. */
const POINTS = 256

const ONE_POINT = [1]

/**
 * The chances in tests to come. One alone is the forecast of the next test; several share what is not known of the candidate's
 * ability, strengths and majors, so they are given at the points of it. What the tests themselves would teach is left out.
 * In: the history up to a day; how many tests are to come; for which kinds of attempt the unit's pass rate is used instead.
 */
export function chancesAhead(
  layout: MeasureLayout,
  fit: UnitFit,
  history: CandidateHistory,
  day: string,
  version: VersionPlaces,
  { tests, basisOf }: { tests: number; basisOf: (kind: AttemptState['kind']) => 'model' | 'baseline' },
): ChancesAhead {
  const attempts = Array.from({ length: tests }, (_, noGos) => kindAfter(withNoGos(history, day, noGos), day))
  const basis = basisOf(attempts[0]!.kind)
  if (attempts.every(({ kind }) => basisOf(kind) === 'baseline')) {
    return { weights: ONE_POINT, pass: attempts.map(({ kind }) => [unitRate(fit, kind).rate]), basis }
  }
  const next = nextForecast(layout, fit, history, day, version, POINTS)
  const { posterior } = next
  if (tests === 1) return { weights: ONE_POINT, pass: [[passChance(posterior, next.test)]], basis }
  const pass = attempts.map(({ kind, gain }) =>
    basisOf(kind) === 'baseline'
      ? new Float64Array(posterior.weights.length).fill(unitRate(fit, kind).rate)
      : ownChances(posterior, nextTest(layout, fit, gain, version)),
  )
  return { weights: posterior.weights, pass, basis }
}

/** The history if so many tests had been taken by the end of a day, and all were NO-GO. */
function withNoGos(history: CandidateHistory, day: string, count: number): CandidateHistory {
  const noGo = { id: '', graderId: '', day, version: 0, passed: false, marks: '', correct: [], tried: [] }
  return { ...history, tests: [...history.tests, ...new Array<typeof noGo>(count).fill(noGo)] }
}
