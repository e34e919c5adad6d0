import { type Estimate, withLimits } from './clustered-mean.ts'

/** How forecasts lie against what happened. */
export interface Calibration {
  /** Logit by which forecasts are too low on the whole (the slope held at 1); 0 is right. Null: cannot be estimated. */
  readonly intercept: Estimate | null
  /** Below 1: forecasts are too extreme; above: too timid. */
  readonly slope: Estimate | null
}

interface Case {
  readonly cluster: string
  /** In (0, 1). */
  readonly forecast: number
  readonly passed: boolean
}

const MOST_STEPS = 50

/**
 * Calibration slope and intercept: a logistic regression of what happened on the logit of its forecast; the intercept from one
 * with that logit as an offset. Limits by the sandwich estimator with candidates as clusters.
 * Source: D. R. Cox (1958), *Biometrika* 45:562–565; B. Van Calster et al. (2016), *J. Clin. Epidemiol.* 74:167–176; limits as
 * K.-Y. Liang & S. L. Zeger (1986), *Biometrika* 73:13–22.
 * Out: null where all had one outcome, or forecasts part those who passed from the rest without a fault.
 */
export function calibration(cases: readonly Case[]): Calibration {
  const logits = cases.map(({ forecast }) => Math.log(forecast / (1 - forecast)))
  const both = regress(cases, logits, null)
  const shift = regress(
    cases,
    logits.map(() => 0),
    logits,
  )
  return {
    intercept: shift && withLimits(shift.intercept, shift.interceptError),
    slope: both && withLimits(both.slope, both.slopeError),
  }
}

interface Regression {
  readonly intercept: number
  readonly slope: number
  readonly interceptError: number | null
  readonly slopeError: number | null
}

/** Logistic regression on one number, by Newton's method; with an offset the slope stays 0. */
function regress(cases: readonly Case[], x: readonly number[], offset: readonly number[] | null): Regression | null {
  const passes = cases.filter(({ passed }) => passed).length
  if (passes === 0 || passes === cases.length) return null
  let [a, b] = [0, 0]
  for (let step = 0; step < MOST_STEPS; step++) {
    const { gradient, inverse } = derivatives(cases, x, offset, a, b)
    if (inverse === null) return null
    const [stepA, stepB] = [
      inverse[0] * gradient[0] + inverse[1] * gradient[1],
      inverse[1] * gradient[0] + inverse[2] * gradient[1],
    ]
    a += stepA
    b += stepB
    if (!(Math.abs(a) < 50 && Math.abs(b) < 50)) return null
    if (Math.abs(stepA) + Math.abs(stepB) > 1e-10) continue
    const [errorA, errorB] = sandwich(cases, x, offset, a, b, inverse)
    return { intercept: a, slope: b, interceptError: errorA, slopeError: errorB }
  }
  return null
}

type Symmetric = readonly [number, number, number]

function derivatives(
  cases: readonly Case[],
  x: readonly number[],
  offset: readonly number[] | null,
  a: number,
  b: number,
): { gradient: [number, number]; inverse: Symmetric | null } {
  const gradient: [number, number] = [0, 0]
  let [aa, ab, bb] = [0, 0, 0]
  cases.forEach(({ passed }, i) => {
    const p = chanceAt(i, x, offset, a, b)
    gradient[0] += Number(passed) - p
    gradient[1] += (Number(passed) - p) * x[i]!
    aa += p * (1 - p)
    ab += p * (1 - p) * x[i]!
    bb += p * (1 - p) * x[i]! ** 2
  })
  if (offset !== null) return { gradient, inverse: aa > 0 ? [1 / aa, 0, 0] : null }
  const determinant = aa * bb - ab * ab
  if (!(determinant > 1e-12 * aa * bb)) return { gradient, inverse: null }
  return { gradient, inverse: [bb / determinant, -ab / determinant, aa / determinant] }
}

function chanceAt(i: number, x: readonly number[], offset: readonly number[] | null, a: number, b: number): number {
  return 1 / (1 + Math.exp(-a - b * x[i]! - (offset?.[i] ?? 0)))
}

function sandwich(
  cases: readonly Case[],
  x: readonly number[],
  offset: readonly number[] | null,
  a: number,
  b: number,
  inverse: Symmetric,
): [number | null, number | null] {
  const scores = new Map<string, [number, number]>()
  cases.forEach(({ cluster, passed }, i) => {
    const rest = Number(passed) - chanceAt(i, x, offset, a, b)
    const [first, second] = scores.get(cluster) ?? [0, 0]
    scores.set(cluster, [first + rest, second + rest * x[i]!])
  })
  const clusters = scores.size
  if (clusters < 3) return [null, null]
  let [ofA, ofB] = [0, 0]
  for (const [first, second] of scores.values()) {
    ofA += (inverse[0] * first + inverse[1] * second) ** 2
    ofB += (inverse[1] * first + inverse[2] * second) ** 2
  }
  const factor = clusters / (clusters - 1)
  return [Math.sqrt(factor * ofA), Math.sqrt(factor * ofB)]
}
