import { createRandom } from '../../../../seed/generate/random.ts'
import { packSheets } from '../../../../server/domain/ability/ability-data.ts'
import { gainVector, kindsOfTests } from '../../../../server/domain/ability/candidate-history.ts'
import {
  checkForecasts,
  type ForecastCheck,
  type ForecastTest,
} from '../../../../server/domain/ability/check-forecasts.ts'
import { fitAbility } from '../../../../server/domain/ability/fit-ability.ts'
import { nextForecast } from '../../../../server/domain/ability/next-forecast.ts'
import { passChance, passForecast } from '../../../../server/domain/ability/pass-forecast.ts'
import { pastForecasts } from '../../../../server/domain/ability/past-forecasts.ts'
import { WEAK_PRIORS } from '../../../../server/domain/ability/priors.ts'
import { fitUnit } from '../../../../server/domain/ability/unit-fit.ts'
import { benjaminiHochberg } from '../../../../server/domain/statistics/proportions/benjamini-hochberg.ts'
import { graderSeverities } from './grader-severities.ts'
import { type DrawnUnit, drawUnit, LAYOUT, type World } from './worlds.ts'

/** What the model made of units drawn from one world. */
export interface Verdict {
  readonly world: string
  readonly units: number
  readonly check: ForecastCheck
  /** The same of forecasts made with the true parameters: what of a miss is chance shows in them as well. */
  readonly checkOfTruth: ForecastCheck
  /** Share of the 95 % intervals that hold the candidate's own chance. */
  readonly coverage: number
  /** Share of units in which some grader is flagged (false discovery rate 5 %); and in which the severe one is. */
  readonly anyFlagged: number
  readonly severeFlagged: number
}

/** The tests of the last third are forecast from all before that day, by the model and by who knows the truth. */
const FROM = '2026-01-01'

/** Draws units of a world and judges the forecasts and the graders in them. Seeded. */
export function judgeWorld(world: World, units: number, seed: number): Verdict {
  const random = createRandom(seed)
  const tests: ForecastTest[] = []
  const ofTruth: ForecastTest[] = []
  let [inside, all, flagged, found] = [0, 0, 0, 0]
  for (let unit = 0; unit < units; unit++) {
    const drawn = drawUnit(world, random)
    const fit = fitUnit(LAYOUT, drawn.histories, FROM)
    const late = new Map(
      pastForecasts(
        LAYOUT,
        drawn.histories,
        () => fit,
        ({ day }) => day >= FROM,
      ).map((one) => [one.testId, one]),
    )
    for (const history of drawn.histories) {
      for (const test of history.tests.filter(({ day }) => day >= FROM)) {
        const { forecast, byKind, byLast } = late.get(test.id)!
        tests.push({ candidate: `${unit} ${history.candidateId}`, forecast, byKind, byLast, passed: test.passed })
        const eve = new Date(Date.parse(test.day) - 86_400_000).toISOString().slice(0, 10)
        const version = LAYOUT.ofVersion.get(1)!
        const known = nextForecast(LAYOUT, drawn.truth, history, eve, version, 256)
        ofTruth.push({ ...tests.at(-1)!, forecast: passChance(known.posterior, known.test) })
        const own = nextForecast(LAYOUT, fit, history, eve, version, 256)
        const { low, high } = passForecast(own.posterior, own.test)
        const chance = drawn.trueChance.get(test.id)!
        all += 1
        if (low <= chance && chance <= high) inside += 1
      }
    }
    const flags = flaggedGraders(drawn, world.graders)
    if (flags.length > 0) flagged += 1
    if (flags.includes(0)) found += 1
  }
  return {
    world: world.name,
    units,
    check: checkForecasts(tests)!,
    checkOfTruth: checkForecasts(ofTruth)!,
    coverage: inside / all,
    anyFlagged: flagged / units,
    severeFlagged: found / units,
  }
}

function flaggedGraders({ histories }: DrawnUnit, graders: number): number[] {
  const sheets = histories.flatMap((history, candidate) => {
    const kinds = kindsOfTests(history)
    return history.tests.map(({ graderId, correct, tried }, i) => ({
      candidate,
      grader: Number(graderId.slice(1)),
      gains: gainVector(kinds[i]!.gain),
      measures: LAYOUT.strengthOf.map((_, place) => place),
      correct,
      tried,
    }))
  })
  const design = { candidates: histories.length, graders, gains: 3, strengthOf: LAYOUT.strengthOf }
  const severities = graderSeverities(fitAbility(packSheets(design, sheets), { priors: WEAK_PRIORS }))
  const known = severities.flatMap((each, grader) => (each ? [{ grader, p: each.p }] : []))
  const adjusted = benjaminiHochberg(known.map(({ p }) => p))
  return known.filter((_, i) => adjusted[i]! <= 0.05).map(({ grader }) => grader)
}
