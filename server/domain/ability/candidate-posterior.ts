import { normalQuantile } from '../statistics/numeric/normal-quantile.ts'
import { type AbilityData, packSheets } from './ability-data.ts'
import { CandidateBlock } from './candidate-block.ts'
import { invertFactored } from './cholesky.ts'
import { startModes } from './find-modes.ts'
import { gaussHermite } from './gauss-hermite.ts'
import { lattice } from './lattice.ts'
import type { Spread } from './parameters.ts'

/** A sheet of the candidate's past. */
export interface PastSheet {
  /** Measures by their place. */
  readonly measures: readonly number[]
  readonly correct: ArrayLike<number>
  readonly tried: ArrayLike<number>
  /** What is known to raise every logit of it: gain of its kind of attempt, less the grader's severity. */
  readonly shift: number
  /** Variance of the grader's severity as far as it is known; 0 without graders. */
  readonly shiftVariance: number
}

/** What a candidate's past says of ability and strengths, given the parameters. */
export interface CandidatePosterior {
  /** Ability at each point, in logits. */
  readonly ability: Float64Array
  /** Weights of the points; they add up to 1. */
  readonly weights: Float64Array
  /** Strength in logits at the points of its own rule. */
  readonly strengths: Float64Array
  /** By point, strength and point of the rule: the weight of that strength given the ability. */
  readonly strengthWeights: Float64Array
  readonly strengthCount: number
  /** A standard normal number by point, evenly spread with it: for the form of a day to come. */
  readonly form: Float64Array
}

/** Points for what lies between the sheets, and for each strength. */
const POINTS = 1024
const STRENGTH_POINTS = 9
/**
 * The proposal is so much wider than the normal approximation where there are few dimensions, so that no point outweighs the
 * others where the posterior has longer tails; less in many, where width wastes points.
 */
const widening = (dimensions: number) => 1 + 0.5 * Math.min(1, 3 / dimensions)

/**
 * The distribution of a candidate's ability and strengths given all marked trials of past sheets.
 *
 * Given ability and the days' forms the strengths are independent, and each is integrated by its own rule. Ability and forms
 * are integrated together over evenly spread points of a normal distribution around their mode, as wide as the curvature there
 * (and somewhat wider), weighted by how much likelier each is than proposed; so nothing is plugged in and nothing assumed normal.
 * Source: importance sampling as in J. S. Liu (2001), *Monte Carlo Strategies in Scientific Computing*, 2.5, with the normal
 * approximation at the mode as proposal (J. C. Pinheiro & D. M. Bates 1995, *J. Comput. Graph. Stat.* 4:12–35, 2.3).
 * In: ease by measure, which strength each measure draws on, spreads, past sheets. Out: see `CandidatePosterior`.
 */
export function candidatePosterior(
  model: { readonly ease: ArrayLike<number>; readonly strengthOf: readonly number[]; readonly spread: Spread },
  past: readonly PastSheet[],
  points = POINTS,
): CandidatePosterior {
  const used = past.filter(({ tried }) => Array.from(tried).some((count) => count > 0))
  const rule = gaussHermite(model.spread.measure > 0 ? STRENGTH_POINTS : 1)
  const strengths = Float64Array.from(rule.points, (x) => x * model.spread.measure)
  const count = Math.max(0, ...model.strengthOf.map((place) => place + 1))
  const proposal = propose(model, used)
  const places = lattice(points, used.length + 2)
  const ability = new Float64Array(points)
  const form = new Float64Array(points)
  const logWeights = new Float64Array(points)
  const strengthWeights = new Float64Array(points * count * rule.points.length)
  const z = new Float64Array(used.length + 1)
  const wider = widening(z.length)
  for (let i = 0; i < points; i++) {
    for (let j = 0; j < z.length; j++) z[j] = wider * normalQuantile(places[i * (z.length + 1) + j]!)
    form[i] = normalQuantile(places[i * (z.length + 1) + z.length]!)
    let log = 0
    for (const each of z) log += (each * each) / (2 * wider * wider)
    const core = proposal.point(z)
    for (const each of core) log -= (each * each) / 2
    ability[i] = core[0]! * model.spread.candidate
    const logits = used.map(
      ({ shift, shiftVariance }, s) =>
        shift + ability[i]! + core[s + 1]! * Math.sqrt(model.spread.sheet ** 2 + shiftVariance),
    )
    const own = strengthWeights.subarray(i * count * strengths.length, (i + 1) * count * strengths.length)
    logWeights[i] = log + weighStrengths(model, used, logits, strengths, rule.weights, own)
  }
  return { ability, form, weights: normalised(logWeights), strengths, strengthWeights, strengthCount: count }
}

/** The normal approximation at the mode of ability and forms, strengths integrated: a way from standard normals to them. */
function propose(
  { ease, strengthOf, spread }: { ease: ArrayLike<number>; strengthOf: readonly number[]; spread: Spread },
  past: readonly PastSheet[],
): { point(z: Float64Array): Float64Array } {
  const variance = past.length === 0 ? 0 : past.reduce((sum, each) => sum + each.shiftVariance, 0) / past.length
  const size = past.length + 1
  const center = new Float64Array(size)
  let lower = identity(size)
  if (past.length > 0) {
    // The same day's spread for all sheets is near enough for a proposal.
    const near = { ...spread, sheet: Math.sqrt(spread.sheet ** 2 + variance), grader: 0 }
    const data: AbilityData = packSheets(
      { candidates: 1, graders: 0, gains: 1, strengthOf },
      past.map((sheet) => ({ ...sheet, candidate: 0, grader: -1, gains: [sheet.shift] })),
    )
    const modes = startModes(data)
    const block = new CandidateBlock(data)
    block.settle(0, { ease, gains: [1], spread: near }, modes)
    center.set([modes.candidate[0]!, ...modes.sheet])
    lower = lowerRoot(invertFactored(block.core, size), size)
  }
  const point = new Float64Array(size)
  return {
    point(z) {
      for (let i = 0; i < size; i++) {
        let sum = center[i]!
        for (let j = 0; j <= i; j++) sum += lower[i * size + j]! * z[j]!
        point[i] = sum
      }
      return point
    },
  }
}

/** Fills the weights of every strength's points given the sheets' logits. Out: the log-likelihood, strengths integrated. */
function weighStrengths(
  { ease, strengthOf }: { ease: ArrayLike<number>; strengthOf: readonly number[] },
  past: readonly PastSheet[],
  logits: readonly number[],
  strengths: Float64Array,
  ruleWeights: readonly number[],
  out: Float64Array,
): number {
  const size = strengths.length
  out.fill(0)
  past.forEach(({ measures, correct, tried }, s) => {
    for (let i = 0; i < measures.length; i++) {
      const n = tried[i]!
      if (!(n > 0)) continue
      const at = strengthOf[measures[i]!]! * size
      const logit = ease[measures[i]!]! + logits[s]!
      for (let k = 0; k < size; k++) {
        const x = logit + strengths[k]!
        out[at + k]! += correct[i]! * x - n * (x > 0 ? x + Math.log(1 + Math.exp(-x)) : Math.log(1 + Math.exp(x)))
      }
    }
  })
  let total = 0
  for (let at = 0; at < out.length; at += size) {
    let most = Number.NEGATIVE_INFINITY
    for (let k = 0; k < size; k++) most = Math.max(most, out[at + k]!)
    let sum = 0
    for (let k = 0; k < size; k++) {
      out[at + k] = ruleWeights[k]! * Math.exp(out[at + k]! - most)
      sum += out[at + k]!
    }
    for (let k = 0; k < size; k++) out[at + k]! /= sum
    total += most + Math.log(sum)
  }
  return total
}

function normalised(logWeights: Float64Array): Float64Array {
  const most = logWeights.reduce((x, y) => Math.max(x, y), Number.NEGATIVE_INFINITY)
  const weights = logWeights.map((each) => Math.exp(each - most))
  const sum = weights.reduce((x, y) => x + y, 0)
  return weights.map((each) => each / sum)
}

function identity(size: number): Float64Array {
  return Float64Array.from({ length: size * size }, (_, i) => (i % (size + 1) === 0 ? 1 : 0))
}

function lowerRoot(matrix: Float64Array, size: number): Float64Array {
  const lower = Float64Array.from(matrix)
  for (let j = 0; j < size; j++) {
    for (let i = j; i < size; i++) {
      let rest = lower[i * size + j]!
      for (let k = 0; k < j; k++) rest -= lower[i * size + k]! * lower[j * size + k]!
      lower[i * size + j] = i === j ? Math.sqrt(rest) : rest / lower[j * size + j]!
    }
    for (let i = 0; i < j; i++) lower[i * size + j] = 0
  }
  return lower
}
