import { gaussHermite } from '../../ability/gauss-hermite.ts'
import { poissonBinomial } from '../expectation/poisson-binomial.ts'
import { logistic, ofPassed, type Passed, type PassModel } from './fit-passes.ts'
import { onceAlike } from './once-alike.ts'

/** Candidates of one sponsor, alike in what came before the sponsor's first attempt with them and in the attempts with the sponsor. */
export interface CoachedGroup {
  readonly before: readonly Passed[]
  readonly own: readonly Passed[]
  readonly count: number
}

/** Passes of a sponsor's candidates beside those that such candidates have with sponsors at large. */
export interface CoachedPasses {
  readonly attempts: number
  readonly passes: number
  readonly expected: number
  /** Standard deviation of the passes by chance, candidates differing in ability. */
  readonly sd: number
  /** Two-sided: twice the chance of passes as far out or farther on their side, at most 1. */
  readonly p: number
}

const POINTS = 21

/**
 * How likely the passes of a sponsor's candidates are if the sponsor makes no difference.
 *
 * A candidate's ability is what the model and the candidate's attempts before the sponsor say; attempts of one candidate share
 * it, so they are one cluster. Given ability the number of passes is Poisson-binomial; it is averaged over ability and the
 * candidates' distributions are convolved, so nothing is approximated by a normal distribution and few attempts are no more
 * often called different than they should.
 * In: the model; the candidates of each sponsor. Out: in the same order, see `CoachedPasses`; without attempts p is 1.
 */
export function coachedPasses(model: PassModel, people: readonly (readonly CoachedGroup[])[]): CoachedPasses[] {
  const distributionOf = onceAlike((before, own) => passesOf(model, before, own))
  return people.map((groups) => passesOfGroups(groups, distributionOf))
}

function passesOfGroups(
  groups: readonly CoachedGroup[],
  distributionOf: (before: readonly Passed[], own: readonly Passed[]) => Float64Array,
): CoachedPasses {
  let distribution: Float64Array = Float64Array.of(1)
  let [attempts, passes] = [0, 0]
  for (const { before, own, count } of groups) {
    const one = distributionOf(before, own)
    for (let i = 0; i < count; i++) distribution = convolved(distribution, one)
    attempts += count * own.length
    passes += count * own.reduce<number>((sum, [, passed]) => sum + passed, 0)
  }
  let [expected, square, atMost] = [0, 0, 0]
  distribution.forEach((chance, k) => {
    expected += k * chance
    square += k * k * chance
    if (k <= passes) atMost += chance
  })
  const atLeast = 1 - atMost + distribution[passes]!
  const p = Math.min(1, 2 * Math.max(0, Math.min(atMost, atLeast)))
  return { attempts, passes, expected, sd: Math.sqrt(Math.max(0, square - expected ** 2)), p }
}

/** Points of ability with their weights, given what came before. */
export function abilityAfter({ logits, spread }: PassModel, before: readonly Passed[]) {
  const { points, weights } = gaussHermite(POINTS)
  const posterior = points.map((t, n) =>
    before.reduce(
      (product, [stratum, passed]) => product * ofPassed(logistic(logits[stratum]! + spread * t), passed),
      weights[n]!,
    ),
  )
  const total = posterior.reduce((sum, each) => sum + each, 0)
  return points.map((t, n) => ({ ability: spread * t, weight: posterior[n]! / total }))
}

function passesOf(model: PassModel, before: readonly Passed[], own: readonly Passed[]): Float64Array {
  const mixed = new Float64Array(own.length + 1)
  for (const { ability, weight } of abilityAfter(model, before)) {
    const counts = poissonBinomial(own.map(([stratum]) => logistic(model.logits[stratum]! + ability)))
    counts.forEach((chance, k) => {
      mixed[k]! += weight * chance
    })
  }
  return mixed
}

function convolved(a: Float64Array, b: Float64Array): Float64Array {
  const sum = new Float64Array(a.length + b.length - 1)
  for (let i = 0; i < a.length; i++) for (let j = 0; j < b.length; j++) sum[i + j]! += a[i]! * b[j]!
  return sum
}
