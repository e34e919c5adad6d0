import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import './fixed-seed.ts'
import { chanceAtLeast, goByTrial } from '../../../../server/domain/ability/count-of-go.ts'
import { poissonBinomial } from '../../../../server/domain/statistics/expectation/poisson-binomial.ts'
import { binomialDensity } from '../../../../server/domain/statistics/numeric/binomial-density.ts'

const probability = fc.double({ min: 0, max: 1, noNaN: true })
const probabilities = fc.array(probability, { maxLength: 10 })

/** Every outcome of every trial, one by one. */
function bruteForce(list: number[]): number[] {
  const result = new Array<number>(list.length + 1).fill(0)
  for (let outcome = 0; outcome < 2 ** list.length; outcome++) {
    const happened = list.map((_, i) => (outcome >> i) % 2 === 1)
    const weight = list.reduce((product, p, i) => product * (happened[i] ? p : 1 - p), 1)
    result[happened.filter(Boolean).length]! += weight
  }
  return result
}

describe('Poisson-binomial', () => {
  test('equals the enumeration of all outcomes', () => {
    fc.assert(
      fc.property(probabilities, (list) => {
        const expected = bruteForce(list)
        poissonBinomial(list).forEach((p, k) => {
          expect(p).toBeCloseTo(expected[k]!, 13)
        })
      }),
      { numRuns: 50 },
    )
  })

  test('adds up to 1, has the right mean, and does not depend on the order of trials', () => {
    fc.assert(
      fc.property(fc.array(probability, { maxLength: 200 }), (list) => {
        const distribution = poissonBinomial(list)
        expect(distribution.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12)
        const mean = distribution.reduce((sum, p, k) => sum + k * p, 0)
        expect(mean).toBeCloseTo(
          list.reduce((sum, p) => sum + p, 0),
          9,
        )
        poissonBinomial([...list].reverse()).forEach((p, k) => {
          expect(p).toBeCloseTo(distribution[k]!, 12)
        })
      }),
    )
  })

  test('is binomial for equal probabilities', () => {
    poissonBinomial(new Array(50).fill(0.3)).forEach((p, k) => {
      expect(p).toBeCloseTo(binomialDensity(k, 50, 0.3), 13)
    })
  })

  test('at least k: 1 at 0, falls with k, rises with every probability, 0 past the end', () => {
    fc.assert(
      fc.property(probabilities, fc.integer({ min: -1, max: 11 }), (list, k) => {
        const here = probabilityAtLeast(list, k)
        expect(probabilityAtLeast(list, k + 1)).toBeLessThanOrEqual(here + 1e-15)
        expect(probabilityAtLeast([...list.map((p) => Math.min(1, p + 0.1))], k)).toBeGreaterThanOrEqual(here - 1e-13)
        if (k <= 0) expect(here).toBeCloseTo(1, 13)
        if (k > list.length) expect(here).toBe(0)
      }),
    )
    expect(() => poissonBinomial([1.1])).toThrow(RangeError)
  })
})

test('probability of a GO rises with skill, falls with what is needed, and is the skill for 1 of 1', () => {
  fc.assert(
    fc.property(
      probability,
      probability,
      fc.integer({ min: 1, max: 9 }),
      fc.integer({ min: 0, max: 9 }),
      (p, q, trials, needed) => {
        if (needed > trials) return
        const [less, more] = [Math.min(p, q), Math.max(p, q)].map((skill) => goByTrial(trials, needed)(skill)) as [
          number,
          number,
        ]
        expect(less).toBeLessThanOrEqual(more + 1e-13)
        if (needed > 0)
          expect(goByTrial(trials, needed)(p)).toBeLessThanOrEqual(goByTrial(trials, needed - 1)(p) + 1e-13)
        expect(goByTrial(1, 1)(p)).toBeCloseTo(p, 14)
      },
    ),
  )
})

const probabilityAtLeast = (list: readonly number[], k: number) =>
  chanceAtLeast(Float64Array.from(list), k, new Float64Array(list.length + 1))
