import type { GainKind } from '../../ability/attempt-kind.ts'
import { gaussHermite } from '../../ability/gauss-hermite.ts'
import { type Evaluated, minimise } from '../../ability/minimise.ts'

/** What sort of attempt it is: whose chance to be passed differs from that of others. */
export interface PassStratum {
  /** Number of the test (standard and arm), from 0. */
  readonly place: number
  readonly kind: GainKind
  /** How severe its grader is known to be, in logits of a trial; 0: as the average one, or not known. */
  readonly severity: number
}

/** An attempt by its stratum's number, and whether it was passed. */
export type Passed = readonly [stratum: number, passed: 0 | 1]

/** Candidates alike in all their attempts. */
export interface AttemptGroup {
  readonly attempts: readonly Passed[]
  readonly count: number
}

/** The chances to pass in a unit: logistic(logit of the stratum + ability), ability normal with mean 0. */
export interface PassModel {
  /** By stratum: of the average candidate. */
  readonly logits: readonly number[]
  /** Standard deviation of ability between candidates, in logits. */
  readonly spread: number
}

const KINDS: readonly GainKind[] = ['second', 'later', 'renewal']

interface PassPriors {
  readonly test: number
  readonly kind: number
  readonly severity: number
  readonly spreadPeak: number
}

/**
 * Weak priors, in logits of a pass, so that strata with few attempts, all alike, stay finite: tests normal around an even
 * chance, kinds and severity around no difference, the spread of candidates gamma of shape 2 (Y. Chung et al. 2013,
 * *Psychometrika* 78:685–709) with its peak at 1. Our judgement; a few dozen attempts outweigh them.
 */
const WEAK: PassPriors = { test: 2, kind: 1, severity: 2, spreadPeak: 1 }
const POINTS = 21
const LEAST_LOG = -5

/**
 * The chances to pass, from all attempts of all candidates: a logistic model with one effect a test, one a kind of attempt,
 * one of the grader's severity, and a normal ability of each candidate that all their attempts share. Because a candidate's
 * earlier attempts are in it, that only those come to a retest who failed does no harm.
 * Source: N. E. Breslow & D. G. Clayton (1993), *JASA* 88:9–25 (the model); R. D. Bock & M. Aitkin (1981), *Psychometrika* 46:443–459
 * (integrated by Gauss–Hermite's rule). Peak of the posterior with weak priors.
 * In: strata; groups of candidates; priors (null: none, as for comparison with other programs). Out: deterministic.
 */
export function fitPasses(
  strata: readonly PassStratum[],
  groups: readonly AttemptGroup[],
  priors: PassPriors | null = WEAK,
): PassModel {
  const places = strata.reduce((most, { place }) => Math.max(most, place + 1), 0)
  const size = places + KINDS.length + 2
  const effectsOf = strata.map(({ place, kind, severity }) => ({
    place,
    kind: kind === 'first' ? null : places + KINDS.indexOf(kind),
    severity,
  }))
  const logitsAt = (at: Float64Array): number[] =>
    effectsOf.map(({ place, kind, severity }) => {
      return at[place]! + (kind === null ? 0 : at[kind]!) + severity * at[places + KINDS.length]!
    })
  const evaluate = (at: Float64Array): Evaluated => {
    const spread = Math.exp(Math.max(LEAST_LOG, at[size - 1]!))
    const { value, byStratum, bySpread } = likelihood(logitsAt(at), spread, groups)
    const gradient = new Float64Array(size)
    byStratum.forEach((slope, stratum) => {
      const { place, kind, severity } = effectsOf[stratum]!
      gradient[place]! += slope
      if (kind !== null) gradient[kind]! += slope
      gradient[places + KINDS.length]! += severity * slope
    })
    gradient[size - 1] = bySpread * spread
    const prior = priors === null ? 0 : addPriors(priors, at, spread, places, gradient)
    return { value: -(value + prior), gradient: gradient.map((slope) => -slope) }
  }
  const attempts = groups.reduce((sum, group) => sum + group.count * group.attempts.length, 0)
  const scale = new Float64Array(size).fill(1 / (1 + (0.2 * attempts) / size))
  const { at } = minimise(evaluate, new Float64Array(size), scale)
  return { logits: logitsAt(at), spread: Math.exp(Math.max(LEAST_LOG, at[size - 1]!)) }
}

/** Logarithm of the priors' density; adds its slopes. */
function addPriors(
  { test, kind, severity, spreadPeak }: PassPriors,
  at: Float64Array,
  spread: number,
  places: number,
  gradient: Float64Array,
): number {
  const last = at.length - 1
  gradient[last]! += 1 - spread / spreadPeak
  let value = Math.log(spread) - spread / spreadPeak
  for (let i = 0; i < last; i++) {
    const sd = i < places ? test : i < last - 1 ? kind : severity
    value -= 0.5 * (at[i]! / sd) ** 2
    gradient[i]! -= at[i]! / sd ** 2
  }
  return value
}

/** Log-likelihood with ability integrated, and its slopes by the logit of each stratum and by the spread. */
function likelihood(logits: readonly number[], spread: number, groups: readonly AttemptGroup[]) {
  const { points, weights } = gaussHermite(POINTS)
  const byStratum = new Float64Array(logits.length)
  const chances = logits.map((logit) => points.map((t) => logistic(logit + spread * t)))
  let [value, bySpread] = [0, 0]
  for (const { attempts, count } of groups) {
    const posterior = points.map((_, n) =>
      attempts.reduce((product, [stratum, passed]) => product * ofPassed(chances[stratum]![n]!, passed), weights[n]!),
    )
    const total = posterior.reduce((sum, each) => sum + each, 0)
    value += count * Math.log(total)
    for (const [stratum, passed] of attempts) {
      let [slope, tilted] = [0, 0]
      for (let n = 0; n < points.length; n++) {
        const part = (posterior[n]! / total) * (passed - chances[stratum]![n]!)
        slope += part
        tilted += part * points[n]!
      }
      byStratum[stratum]! += count * slope
      bySpread += count * tilted
    }
  }
  return { value, byStratum, bySpread }
}

export const logistic = (x: number): number => 1 / (1 + Math.exp(-x))

export const ofPassed = (chance: number, passed: 0 | 1): number => (passed === 1 ? chance : 1 - chance)
