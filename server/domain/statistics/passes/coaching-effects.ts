import type { Interval } from '../interval.ts'
import { abilityAfter, type CoachedGroup } from './coached-passes.ts'
import { logistic, ofPassed, type PassModel } from './fit-passes.ts'
import { onceAlike } from './once-alike.ts'

/** What the attempts of all would have come to with one sponsor, as a rate. */
export interface CoachedRate extends Interval {
  readonly rate: number
}

/** Effects in logits of a pass, and spreads of effects between sponsors, over which is integrated. */
const EFFECTS = Array.from({ length: 121 }, (_, i) => (i - 60) / 20)
const SPREADS = Array.from({ length: 24 }, (_, i) => (i + 1) / 16)
/** Peak of the gamma prior (shape 2) of the spread between sponsors, in logits of a pass: as a rule candidates differ more. */
const SPREAD_PEAK = 0.4

/**
 * The rate that each sponsor's coaching comes with, the candidates they had allowed for: the GO that the attempts of all would
 * have come to, had everybody had this sponsor. Drawn toward the common rate, the more the fewer the attempts; always with an
 * interval, for the spread between sponsors has a weakly informative prior that is 0 at "no spread" (Y. Chung et al. 2013,
 * *Psychometrika* 78:685–709) and is integrated over, not plugged in.
 * Source: A. Gelman et al. (2013), *Bayesian Data Analysis*, 3rd ed., 5.4 (normal effects, posterior on a grid).
 * In: the model; by sponsor the candidates. Out: in the same order, 95 % intervals.
 */
export function coachingEffects(model: PassModel, people: readonly (readonly CoachedGroup[])[]): CoachedRate[] {
  const chancesOf = chancesByEffect(model)
  const logsOf = onceAlike((before, own) => {
    const abilities = abilityAfter(model, before)
    return EFFECTS.map((_, i) => {
      let chance = 0
      for (const [n, { weight }] of abilities.entries()) {
        let ofOwn = 1
        for (const [stratum, passed] of own) ofOwn *= ofPassed(chancesOf(stratum)[n]![i]!, passed)
        chance += weight * ofOwn
      }
      return Math.log(chance)
    })
  })
  const likelihoods = people.map((groups) => likelihoodOf(groups, logsOf))
  const priors = SPREADS.map((spread) => {
    const density = EFFECTS.map((effect) => Math.exp(-0.5 * (effect / spread) ** 2))
    const total = density.reduce((sum, each) => sum + each, 0)
    return density.map((each) => each / total)
  })
  const evidence = likelihoods.map((likelihood) => priors.map((prior) => sumOfProducts(prior, likelihood)))
  const logWeights = SPREADS.map(
    (spread, s) =>
      Math.log(spread) - spread / SPREAD_PEAK + evidence.reduce((sum, ofOne) => sum + Math.log(ofOne[s]!), 0),
  )
  const most = Math.max(...logWeights)
  const weights = logWeights.map((each) => Math.exp(each - most))
  const rates = ratesByEffect(model, people, chancesOf)
  return likelihoods.map((likelihood, person) => {
    const posterior = EFFECTS.map((_, i) => {
      let sum = 0
      for (let s = 0; s < SPREADS.length; s++) {
        sum += (weights[s]! * priors[s]![i]! * likelihood[i]!) / evidence[person]![s]!
      }
      return sum
    })
    const at = quantiles(posterior, rates)
    return { rate: at(0.5), low: at(0.025), high: at(0.975) }
  })
}

/** Chances to pass of a stratum, by point of ability and effect; each stratum's are worked out once. */
function chancesByEffect(model: PassModel): (stratum: number) => readonly Float64Array[] {
  const known = new Map<number, readonly Float64Array[]>()
  const abilities = abilityAfter(model, [])
  return (stratum) => {
    const chances =
      known.get(stratum) ??
      abilities.map(({ ability }) =>
        Float64Array.from(EFFECTS, (effect) => logistic(model.logits[stratum]! + ability + effect)),
      )
    known.set(stratum, chances)
    return chances
  }
}

function sumOfProducts(a: readonly number[], b: readonly number[]): number {
  let sum = 0
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!
  return sum
}

/** By effect, up to a factor. In: candidates, and logarithms by effect of how likely the attempts of one are. */
function likelihoodOf(
  groups: readonly CoachedGroup[],
  logsOf: (before: CoachedGroup['before'], own: CoachedGroup['own']) => readonly number[],
): number[] {
  const logs = new Float64Array(EFFECTS.length)
  for (const { before, own, count } of groups) {
    const ofOne = logsOf(before, own)
    for (let i = 0; i < logs.length; i++) logs[i]! += count * ofOne[i]!
  }
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)
  return Array.from(logs, (each) => Math.exp(each - most))
}

/** Share passed of all attempts with a sponsor, at each effect. */
function ratesByEffect(
  model: PassModel,
  people: readonly (readonly CoachedGroup[])[],
  chancesOf: (stratum: number) => readonly Float64Array[],
): number[] {
  const passes = new Float64Array(EFFECTS.length)
  const abilitiesAfter = onceAlike((before) => abilityAfter(model, before))
  let attempts = 0
  for (const { before, own, count } of people.flat()) {
    attempts += count * own.length
    for (const [n, { weight }] of abilitiesAfter(before, []).entries()) {
      const ofAll = count * weight
      for (const [stratum] of own) {
        const chances = chancesOf(stratum)[n]!
        for (let i = 0; i < passes.length; i++) passes[i]! += ofAll * chances[i]!
      }
    }
  }
  return Array.from(passes, (each) => each / attempts)
}

/** Values at shares of a distribution given by its weights, which it is spread between evenly. */
function quantiles(weights: readonly number[], values: readonly number[]): (share: number) => number {
  const total = weights.reduce((sum, each) => sum + each, 0)
  return (share) => {
    let below = 0
    for (let i = 0; i < weights.length; i++) {
      const next = below + weights[i]! / total
      if (next >= share) {
        const within = (share - below) / (next - below) - 0.5
        const neighbour = values[Math.min(values.length - 1, Math.max(0, i + Math.sign(within)))]!
        return values[i]! + Math.abs(within) * (neighbour - values[i]!)
      }
      below = next
    }
    return values.at(-1)!
  }
}
