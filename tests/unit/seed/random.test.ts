import { describe, expect, test } from 'vitest'
import { createRandom } from '../../../seed/generate/random.ts'
import { splitMix64, xoshiro128 } from '../../../seed/generate/xoshiro128.ts'

const draw = <Value>(count: number, next: () => Value): Value[] => Array.from({ length: count }, next)

/** Pearson's statistic of counts against equally likely classes. */
function chiSquare(counts: readonly number[], expected: readonly number[]): number {
  return counts.reduce((sum, count, index) => sum + (count - expected[index]!) ** 2 / expected[index]!, 0)
}

const tally = <Value>(values: readonly Value[], classes: readonly Value[]): number[] =>
  classes.map((one) => values.filter((value) => value === one).length)

describe('the words', () => {
  // Output of the authors' C code for the state 1, 2, 3, 4, as several independent ports on GitHub pin it; the first
  // by hand: rotate(2 * 5, 7) * 9 = 1280 * 9.
  test('of xoshiro128** 1.1 are those of the reference code', () => {
    expect(draw(10, xoshiro128([1, 2, 3, 4]))).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ])
  })

  // Rosetta Code, "Pseudo-random numbers/Splitmix64", seed 1234567.
  test('of SplitMix64 are the published ones', () => {
    expect(draw(5, splitMix64(1234567n))).toEqual([
      6457827717110365317n,
      3203168211198807973n,
      9817491932198370423n,
      4593380528125082431n,
      16408922859458223821n,
    ])
  })

  test('need a state that is not all zero', () => {
    expect(() => xoshiro128([0, 0, 0, 0])).toThrow(RangeError)
  })
})

/** The same generator written anew with integers of any size, as the definition reads: the oracle of `next`. */
function nextByDefinition(seed: bigint, count: number): number[] {
  const fill = splitMix64(seed)
  const low = (word: bigint, bits: bigint) => word % (1n << bits)
  const turn = (word: bigint, by: bigint) => low(word << by, 32n) + (word >> (32n - by))
  const [one, two] = [fill(), fill()]
  const s = [one >> 32n, low(one, 32n), two >> 32n, low(two, 32n)] as [bigint, bigint, bigint, bigint]
  const word = (): bigint => {
    const result = low(turn(low(s[1] * 5n, 32n), 7n) * 9n, 32n)
    const shifted = low(s[1] << 9n, 32n)
    s[2] ^= s[0]
    s[3] ^= s[1]
    s[1] ^= s[2]
    s[0] ^= s[3]
    s[2] ^= shifted
    s[3] = turn(s[3], 11n)
    return result
  }
  return draw(count, () => {
    const [high, rest] = [word() >> 5n, word() >> 6n]
    return Number((high << 26n) + rest) / 2 ** 53
  })
}

describe('a stream', () => {
  test.each([0, 1, -1, 20261125, Number.MAX_SAFE_INTEGER])('of seed %i follows the definition', (seed) => {
    expect(draw(50, createRandom(seed).next)).toEqual(nextByDefinition(BigInt(seed), 50))
  })

  test('is the same for the same seed, whatever is drawn, and another for another seed', () => {
    const mixed = (seed: number) => {
      const random = createRandom(seed)
      return draw(20, () => [random.integer(1, 9), random.normal(0, 1), random.shuffle([1, 2, 3]), random.chance(0.5)])
    }
    expect(mixed(5)).toEqual(mixed(5))
    expect(mixed(5)).not.toEqual(mixed(6))
  })

  test.each([0.5, Number.NaN, 2 ** 53, Number.POSITIVE_INFINITY])('refuses the seed %d', (seed) => {
    expect(() => createRandom(seed)).toThrow(RangeError)
  })
})

// Upper 0.001 points of chi-square (NIST/SEMATECH e-Handbook 1.3.6.7.4, from memory): 5 degrees of freedom 20.515,
// 23 degrees 49.728, 2 degrees 13.816. The seeds are fixed, so the tests always give the same answer.
describe('draws are spread as they should be:', () => {
  test('integer, both ends included', () => {
    const random = createRandom(11)
    const rolls = draw(60_000, () => random.integer(-2, 3))
    const counts = tally(rolls, [-2, -1, 0, 1, 2, 3])
    expect(counts.reduce((sum, count) => sum + count)).toBe(60_000)
    expect(chiSquare(counts, Array(6).fill(10_000))).toBeLessThan(20.515)
    expect(random.integer(4, 4)).toBe(4)
  })

  test('shuffle, all 24 orders of four, the list itself untouched', () => {
    const random = createRandom(12)
    const list = Object.freeze(['a', 'b', 'c', 'd'])
    const orders = draw(24_000, () => random.shuffle(list).join(''))
    const classes = [...new Set(orders)]
    expect(classes).toHaveLength(24)
    expect(chiSquare(tally(orders, classes), Array(24).fill(1000))).toBeLessThan(49.728)
  })

  test('weighted and pick', () => {
    const random = createRandom(13)
    const weighted = draw(40_000, () =>
      random.weighted([
        ['a', 1],
        ['never', 0],
        ['b', 2],
        ['c', 5],
      ]),
    )
    expect(weighted).not.toContain('never')
    expect(chiSquare(tally(weighted, ['a', 'b', 'c']), [5000, 10_000, 25_000])).toBeLessThan(13.816)
    const picked = draw(30_000, () => random.pick(['x', 'y', 'z']))
    expect(chiSquare(tally(picked, ['x', 'y', 'z']), Array(3).fill(10_000))).toBeLessThan(13.816)
  })

  test('chance, never at 0 and always at 1', () => {
    const random = createRandom(14)
    const share = draw(40_000, () => random.chance(0.3)).filter(Boolean).length / 40_000
    expect(Math.abs(share - 0.3)).toBeLessThan(4 * Math.sqrt((0.3 * 0.7) / 40_000))
    expect(draw(1000, () => random.chance(0))).not.toContain(true)
    expect(draw(1000, () => random.chance(1))).not.toContain(false)
  })

  // Shares of a normal within one, two and three standard deviations: 0.6827, 0.9545, 0.9973.
  test('normal, by mean, spread and shares within one, two and three deviations', () => {
    const random = createRandom(15)
    const count = 40_000
    const deviates = draw(count, () => (random.normal(100, 15) - 100) / 15)
    const mean = deviates.reduce((sum, z) => sum + z, 0) / count
    const variance = deviates.reduce((sum, z) => sum + z * z, 0) / count
    expect(Math.abs(mean)).toBeLessThan(4 / Math.sqrt(count))
    expect(Math.abs(variance - 1)).toBeLessThan(4 * Math.sqrt(2 / count))
    for (const [within, share] of [
      [1, 0.682689],
      [2, 0.9545],
      [3, 0.9973],
    ] as const) {
      const found = deviates.filter((z) => Math.abs(z) < within).length / count
      expect(Math.abs(found - share)).toBeLessThan(4 * Math.sqrt((share * (1 - share)) / count))
    }
  })
})

describe('what cannot be drawn is refused:', () => {
  const random = createRandom(1)
  test.each([
    ['integer from an empty span', () => random.integer(3, 2)],
    ['integer with a fraction', () => random.integer(0.5, 2)],
    ['pick from nothing', () => random.pick([])],
    ['weighted from nothing', () => random.weighted([])],
    ['weighted with no weight', () => random.weighted([['a', 0]])],
    [
      'weighted with a negative weight',
      () =>
        random.weighted([
          ['a', 2],
          ['b', -1],
        ]),
    ],
    ['weighted with a weight that is no number', () => random.weighted([['a', Number.NaN]])],
  ])('%s', (_, attempt) => {
    expect(attempt).toThrow(RangeError)
  })
})
