/** A function's value and slope at a point. */
export interface Evaluated {
  readonly value: number
  readonly gradient: Float64Array
}

const MOST_STEPS = 300
const MOST_HALVINGS = 30
/** Of the slope that a step has to reach of what the slope promises (Armijo). */
const SUFFICIENT = 1e-4
/** Relative; a value is known no better. */
const ROUNDING = 1e-10

export interface Minimum {
  readonly at: Float64Array
  readonly value: number
  readonly steps: number
  /** False: the slope did not become small within the steps. */
  readonly converged: boolean
  /** Approximate inverse of the curvature, by rows. */
  readonly inverseCurvature: Float64Array
}

/**
 * The minimum of a smooth function, by the method of Broyden, Fletcher, Goldfarb and Shanno with a backtracking search.
 * Source: J. Nocedal & S. Wright (2006), *Numerical Optimization*, 2nd ed., algorithm 6.1.
 * In: the function; where to begin; a first guess of the inverse curvature of each number, or all of it by rows; done when no number's slope is worth
 * more than `tolerance` (slope² × inverse curvature / 2, in units of the value).
 */
export function minimise(
  evaluate: (at: Float64Array) => Evaluated,
  start: Float64Array,
  scale: Float64Array,
  tolerance = 1e-7,
): Minimum {
  const size = start.length
  const inverse = new Float64Array(size * size)
  if (scale.length === size * size) inverse.set(scale)
  else for (let i = 0; i < size; i++) inverse[i * size + i] = scale[i]!
  let at: Float64Array = Float64Array.from(start)
  let here = evaluate(at)
  for (let steps = 0; steps < MOST_STEPS; steps++) {
    const direction = times(inverse, here.gradient, size).map((x) => -x)
    const promise = dot(direction, here.gradient)
    if (-promise / 2 < tolerance) {
      return { at, value: here.value, steps, converged: true, inverseCurvature: inverse }
    }
    const next = search(evaluate, at, here, direction, promise)
    if (next === null) return { at, value: here.value, steps, converged: false, inverseCurvature: inverse }
    const step = next.at.map((x, i) => x - at[i]!)
    const change = next.gradient.map((g, i) => g - here.gradient[i]!)
    update(inverse, step, change, size)
    at = next.at
    here = next
  }
  return { at, value: here.value, steps: MOST_STEPS, converged: false, inverseCurvature: inverse }
}

/** No number is moved further than this at once; parameters here are logits and logarithms. */
const LONGEST = 1

function search(
  evaluate: (at: Float64Array) => Evaluated,
  at: Float64Array,
  here: Evaluated,
  direction: Float64Array,
  promise: number,
): (Evaluated & { at: Float64Array }) | null {
  let length = Math.min(1, LONGEST / Math.max(...direction.map(Math.abs)))
  for (let tries = 0; tries < MOST_HALVINGS; tries++) {
    const there = at.map((x, i) => x + length * direction[i]!)
    const found = evaluate(there)
    if (found.value <= here.value + SUFFICIENT * length * promise + ROUNDING * Math.abs(here.value)) {
      return { at: there, ...found }
    }
    const curved = 2 * (found.value - here.value - length * promise)
    const best = curved > 0 ? (-promise * length * length) / curved : length / 2
    length = Math.min(length / 2, Math.max(length / 10, best))
  }
  return null
}

function update(inverse: Float64Array, step: Float64Array, change: Float64Array, size: number): void {
  const curvature = dot(step, change)
  if (!(curvature > 1e-12 * Math.sqrt(dot(step, step) * dot(change, change)))) return
  const moved = times(inverse, change, size)
  const factor = (1 + dot(change, moved) / curvature) / curvature
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      inverse[i * size + j]! += factor * step[i]! * step[j]! - (moved[i]! * step[j]! + step[i]! * moved[j]!) / curvature
    }
  }
}

function times(matrix: Float64Array, vector: Float64Array, size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, i) => {
    let sum = 0
    for (let j = 0; j < size; j++) sum += matrix[i * size + j]! * vector[j]!
    return sum
  })
}

function dot(x: Float64Array, y: Float64Array): number {
  let sum = 0
  for (let i = 0; i < x.length; i++) sum += x[i]! * y[i]!
  return sum
}
