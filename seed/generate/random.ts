import { splitMix64, xoshiro128 } from './xoshiro128.ts'

/**
 * One stream of random numbers: the same seed gives the same draws in the same order, on every machine
 * (`normal` to the last bit only where `Math.log` is the same code, as in every build of Node).
 */
export interface Random {
  /** A number in [0, 1), a multiple of 2^−53. */
  next(): number
  /** A whole number from `min` to `max`, both inclusive, all equally likely. Throws a RangeError when there is none. */
  integer(min: number, max: number): number
  /** One item of a list that is not empty. */
  pick<Item>(items: readonly Item[]): Item
  /** True with this probability: 0 never, 1 always. */
  chance(probability: number): boolean
  /** A new list with the same items in a random order, all orders equally likely (Fisher and Yates). */
  shuffle<Item>(items: readonly Item[]): Item[]
  /** A normal deviate (polar method, Marsaglia and Bray 1964). */
  normal(mean: number, standardDeviation: number): number
  /** One value, each with probability weight / sum of weights. Throws a RangeError for a negative weight or no sum. */
  weighted<Value>(choices: readonly (readonly [value: Value, weight: number])[]): Value
}

/**
 * A stream from one seed. In: a whole number, exact as a number. Throws a RangeError for any other.
 * The words come from xoshiro128**, its state filled from the seed by SplitMix64 as its authors advise.
 */
export function createRandom(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`The seed must be a whole number, not ${seed}.`)
  const fill = splitMix64(BigInt(seed))
  const [first, second] = [fill(), fill()]
  const words = [first >> 32n, first, second >> 32n, second].map((word) => Number(BigInt.asUintN(32, word)))
  const word = xoshiro128(words as [number, number, number, number])

  const next = (): number => ((word() >>> 5) * 2 ** 26 + (word() >>> 6)) / 2 ** 53

  const integer = (min: number, max: number): number => {
    if (!Number.isSafeInteger(min) || !Number.isSafeInteger(max) || min > max) {
      throw new RangeError(`No whole number to draw from ${min} to ${max}.`)
    }
    return min + Math.floor(next() * (max - min + 1))
  }

  const pick = <Item>(items: readonly Item[]): Item => {
    if (items.length === 0) throw new RangeError('Nothing to pick from.')
    return items[integer(0, items.length - 1)] as Item
  }

  const chance = (probability: number): boolean => next() < probability

  const shuffle = <Item>(items: readonly Item[]): Item[] => {
    const shuffled = [...items]
    for (let last = shuffled.length - 1; last > 0; last--) {
      const other = integer(0, last)
      ;[shuffled[last], shuffled[other]] = [shuffled[other] as Item, shuffled[last] as Item]
    }
    return shuffled
  }

  const normal = (mean: number, standardDeviation: number): number => {
    for (;;) {
      const x = 2 * next() - 1
      const y = 2 * next() - 1
      const radius = x * x + y * y
      if (radius > 0 && radius < 1) return mean + standardDeviation * x * Math.sqrt((-2 * Math.log(radius)) / radius)
    }
  }

  const weighted = <Value>(choices: readonly (readonly [Value, number])[]): Value => {
    const sum = choices.reduce((total, [, weight]) => total + weight, 0)
    if (!(sum > 0) || choices.some(([, weight]) => weight < 0)) {
      throw new RangeError('Weights must be zero or more, with a sum above zero.')
    }
    let left = next() * sum
    let chosen: Value | undefined
    for (const [value, weight] of choices) {
      if (weight === 0) continue // rounding may leave a trace at the end, which must not fall to a weight of zero
      chosen = value
      left -= weight
      if (left < 0) break
    }
    return chosen as Value
  }

  return { next, integer, pick, chance, shuffle, normal, weighted }
}
