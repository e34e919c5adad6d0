import type { AttemptState, GainKind } from './attempt-kind.ts'
import { type CandidateHistory, gainVector, kindAfter, kindsOfTests } from './candidate-history.ts'
import { type CandidatePosterior, candidatePosterior, type PastSheet } from './candidate-posterior.ts'
import { majorChance } from './major-chance.ts'
import type { MeasureLayout, VersionPlaces } from './measure-layout.ts'
import type { NextTest } from './pass-forecast.ts'
import { WEAK_PRIORS } from './priors.ts'
import type { UnitFit } from './unit-fit.ts'

/** All that a forecast of a candidate's next test needs. */
export interface NextForecast {
  readonly attempt: AttemptState
  /** Sheets with marks of the candidate that it rests on. */
  readonly sheets: readonly string[]
  readonly posterior: CandidatePosterior
  readonly test: NextTest
  readonly codes: readonly string[]
}

const NEVER = { noGo: 0, judged: 0 }

/**
 * The candidate's next test of a version, from the tests up to a day and what was known of the unit.
 * @param points of the integration; fewer where many forecasts are made
 */
export function nextForecast(
  layout: MeasureLayout,
  fit: UnitFit,
  history: CandidateHistory,
  day: string,
  version: VersionPlaces,
  points?: number,
): NextForecast {
  const attempt = kindAfter(history, day)
  const kinds = kindsOfTests(history)
  const ease = layout.strengthOf.map((_, place) => easeOf(fit, place))
  const used = history.tests.flatMap((test, i) => {
    const places = test.day <= day && test.tried.length > 0 ? layout.ofVersion.get(test.version) : undefined
    return places ? [{ id: test.id, sheet: pastSheet(fit, test, places, kinds[i]!.gain) }] : []
  })
  const posterior = candidatePosterior(
    { ease, strengthOf: layout.strengthOf, spread: fit.spread },
    used.map(({ sheet }) => sheet),
    points,
  )
  const test = nextTest(layout, fit, attempt.gain, version)
  return { attempt, sheets: used.map(({ id }) => id), posterior, test, codes: version.codes }
}

/** A test of a version, in a kind of attempt, as far as it does not depend on the candidate. */
export function nextTest(layout: MeasureLayout, fit: UnitFit, kind: GainKind, version: VersionPlaces): NextTest {
  const shift = shiftOf(fit, kind)
  const majors = version.majors.map((code) => fit.majors[code]?.[kind] ?? majorChance(NEVER, NEVER))
  return {
    measures: version.measures.map((place) => ({
      logit: easeOf(fit, place) + shift,
      strength: layout.strengthOf[place]!,
    })),
    trials: version.trials,
    needed: version.needed,
    minimum: version.minimum,
    majors: majors.map(({ chance }) => chance),
    majorVariances: majors.map(({ variance }) => variance),
    dayVariance: fit.spread.sheet ** 2 + fit.spread.grader ** 2,
  }
}

const easeOf = (fit: UnitFit, place: number): number => fit.ease[place] ?? WEAK_PRIORS.ease.mean

function pastSheet(
  fit: UnitFit,
  test: CandidateHistory['tests'][number],
  { measures }: VersionPlaces,
  gain: GainKind,
): PastSheet {
  const grader = fit.graders[test.graderId]
  return {
    measures,
    correct: test.correct,
    tried: test.tried,
    shift: shiftOf(fit, gain) - (grader?.severity ?? 0),
    shiftVariance: grader?.variance ?? fit.spread.grader ** 2,
  }
}

const shiftOf = ({ gains }: UnitFit, kind: GainKind): number =>
  gainVector(kind).reduce((sum, x, k) => sum + x * (gains[k] ?? 0), 0)
