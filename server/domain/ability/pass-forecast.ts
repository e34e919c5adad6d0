import { normalQuantile } from '../statistics/numeric/normal-quantile.ts'
import type { CandidatePosterior } from './candidate-posterior.ts'
import { chanceAtLeast, chanceOthersMake, goByTrial } from './count-of-go.ts'
import { gaussHermite } from './gauss-hermite.ts'
import { lattice } from './lattice.ts'
import { weightedQuantile } from './weighted-quantile.ts'

/** The test that is forecast. */
export interface NextTest {
  /** Its measures in order: ease with all that is known to shift it, and which strength each draws on. */
  readonly measures: readonly { readonly logit: number; readonly strength: number }[]
  readonly trials: number
  readonly needed: number
  /** Least number of GO measures to pass. */
  readonly minimum: number
  /** Chance of a NO-GO of each major. */
  readonly majors: readonly number[]
  /** Variance of each of these chances, as far as they are known; left out: known for certain. Widens the interval. */
  readonly majorVariances?: readonly number[]
  /** Variance of what nobody can know before: the day's form, and severity where the grader is not known. */
  readonly dayVariance: number
}

export interface PassForecast {
  /** Chance of at least the minimum. */
  readonly minors: number
  /** Chance to pass, majors included. */
  readonly pass: number
  /** 95 % limits of the candidate's own chance. */
  readonly low: number
  readonly high: number
  /** Chance of a GO of each measure. */
  readonly measures: readonly number[]
  /** How much the chance to pass rises when the logit of that measure alone rises by 1. */
  readonly gains: readonly number[]
}

/**
 * The chance to pass the next test, over all that is not known: ability and strengths as the past leaves them, the day's form
 * and the grader's severity as they are drawn. Given these the measures are independent, so the number of GO has a
 * Poisson-binomial distribution (Y. Hong 2013, *Comput. Stat. Data Anal.* 59:41–51), computed exactly; majors are independent
 * of it.
 *
 * The interval is of the candidate's own chance, in which the day is averaged over: further tests would narrow it.
 * In: what the past says; the test. Out: see `PassForecast`. Within 0.005 of brute-force integration in the tests.
 */
export function passForecast(posterior: CandidatePosterior, test: NextTest): PassForecast {
  const count = test.measures.length
  const measures = new Float64Array(count)
  const gains = new Float64Array(count)
  const decides = new Float64Array(count)
  const room = new Float64Array((count + 1) * (count + 2))
  const noMajor = withoutMajor(test)
  let minors = 0
  forEachPoint(posterior, test, (weight, chances, raised) => {
    minors += weight * chanceAtLeast(chances, test.minimum, room)
    chanceOthersMake(chances, test.minimum - 1, decides, room)
    for (let m = 0; m < count; m++) {
      measures[m]! += weight * chances[m]!
      gains[m]! += weight * noMajor * (raised[m]! - chances[m]!) * decides[m]!
    }
  })
  const own = ownChances(posterior, test)
  return {
    minors,
    pass: minors * noMajor,
    low: weightedQuantile(own, posterior.weights, 0.025),
    high: weightedQuantile(own, posterior.weights, 0.975),
    measures: [...measures],
    gains: [...gains],
  }
}

/**
 * The chance to pass alone; with `lifted`, if those measures (by their place in the test) had at least this chance of a GO.
 */
export function passChance(
  posterior: CandidatePosterior,
  test: NextTest,
  lifted: { readonly places: readonly number[]; readonly chance: number } = { places: [], chance: 0 },
): number {
  const room = new Float64Array(test.measures.length + 1)
  let minors = 0
  forEachPoint(posterior, test, (weight, chances) => {
    for (const place of lifted.places) chances[place] = Math.max(chances[place]!, lifted.chance)
    minors += weight * chanceAtLeast(chances, test.minimum, room)
  })
  return minors * withoutMajor(test)
}

const withoutMajor = ({ majors }: NextTest): number => majors.reduce((product, noGo) => product * (1 - noGo), 1)

/** Chances of GO at each point, strengths integrated: as they are, and with one logit more. */
function forEachPoint(
  posterior: CandidatePosterior,
  test: NextTest,
  work: (weight: number, chances: Float64Array, raised: Float64Array) => void,
): void {
  const { ability, form, weights, strengths, strengthWeights, strengthCount } = posterior
  const size = strengths.length
  const go = goByTrial(test.trials, test.needed)
  const day = Math.sqrt(test.dayVariance)
  const chances = new Float64Array(test.measures.length)
  const raised = new Float64Array(test.measures.length)
  for (let i = 0; i < weights.length; i++) {
    if (weights[i]! < 1e-8) continue
    const shift = ability[i]! + day * form[i]!
    test.measures.forEach(({ logit, strength }, m) => {
      const at = (i * strengthCount + strength) * size
      let [chance, more] = [0, 0]
      for (let k = 0; k < size; k++) {
        const odds = Math.exp(logit + shift + strengths[k]!)
        chance += strengthWeights[at + k]! * go(odds / (1 + odds))
        more += strengthWeights[at + k]! * go((Math.E * odds) / (1 + Math.E * odds))
      }
      chances[m] = chance
      raised[m] = more
    })
    work(weights[i]!, chances, raised)
  }
}

const DAY_POINTS = 7

/** The candidate's own chance to pass at each point: strengths and majors drawn there, the day averaged over. */
export function ownChances(posterior: CandidatePosterior, test: NextTest): Float64Array {
  const { ability, weights, strengths, strengthWeights, strengthCount } = posterior
  const size = strengths.length
  const go = goByTrial(test.trials, test.needed)
  const rule = gaussHermite(test.dayVariance > 0 ? DAY_POINTS : 1)
  const spread = Math.sqrt(test.dayVariance)
  const count = test.measures.length
  const drawn = lattice(weights.length, strengthCount + 1)
  const chances = new Float64Array(count)
  const logits = new Float64Array(count)
  const room = new Float64Array(count + 1)
  const drawMajors = majorsAt(test)
  return ability.map((level, i) => {
    test.measures.forEach(({ logit, strength }, m) => {
      const at = (i * strengthCount + strength) * size
      let [mean, square] = [0, 0]
      for (let k = 0; k < size; k++) {
        mean += strengthWeights[at + k]! * strengths[k]!
        square += strengthWeights[at + k]! * strengths[k]! ** 2
      }
      const sd = Math.sqrt(Math.max(0, square - mean * mean))
      logits[m] = logit + level + mean + sd * normalQuantile(drawn[i * (strengthCount + 1) + strength]!)
    })
    let chance = 0
    for (let j = 0; j < rule.points.length; j++) {
      for (let m = 0; m < count; m++) chances[m] = go(1 / (1 + Math.exp(-logits[m]! - spread * rule.points[j]!)))
      chance += rule.weights[j]! * chanceAtLeast(chances, test.minimum, room)
    }
    return drawMajors(drawn[i * (strengthCount + 1) + strengthCount]!) * chance
  })
}

/**
 * The chance that no major is NO-GO at a place in its distribution, which is taken as normal in its logarithm: without it every
 * able candidate would have the same upper limit, and a unit's few tests of the majors would put that too low or too high.
 */
function majorsAt(test: NextTest): (place: number) => number {
  const center = withoutMajor(test)
  const variance = test.majors.reduce((sum, noGo, i) => sum + (test.majorVariances?.[i] ?? 0) / (1 - noGo) ** 2, 0)
  const sd = Math.sqrt(variance)
  return (place) => Math.min(1, center * Math.exp(sd * normalQuantile(place)))
}
