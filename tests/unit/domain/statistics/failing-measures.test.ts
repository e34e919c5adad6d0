import { describe, expect, test } from 'vitest'
import { failingTogether } from '../../../../server/domain/statistics/proportions/failing-together.ts'
import { orderFailingMeasures } from '../../../../server/domain/statistics/proportions/order-failing-measures.ts'

const none = { trials: 0, incorrect: 0, faults: [] }

describe('order of failing measures', () => {
  test('by rate, then number tested, then code; untested last', () => {
    const ordered = orderFailingMeasures([
      { measure: 'about-face', tested: 0, noGo: 0, ...none },
      { measure: 'draw', tested: 10, noGo: 1, ...none },
      { measure: 'return', tested: 20, noGo: 8, ...none },
      { measure: 'present', tested: 5, noGo: 2, ...none },
      { measure: 'carry', tested: 5, noGo: 2, ...none },
      { measure: 'attention', tested: 3, noGo: 0, ...none },
    ])
    expect(ordered.map(({ measure }) => measure)).toEqual([
      'return',
      'carry',
      'present',
      'draw',
      'attention',
      'about-face',
    ])
    expect(ordered.at(-1)!.rate).toEqual({ kind: 'no-data' })
    expect(ordered.at(-2)!.rate).toMatchObject({ rate: 0, few: true })
  })

  test('faults from the commonest, as shares of incorrect trials; none without trials', () => {
    const faults = [
      { code: 'flare-in', count: 3 },
      { code: 'shoulders-off', count: 6 },
      { code: 'arm-off', count: 3 },
    ]
    const [measure] = orderFailingMeasures([
      { measure: 'draw', tested: 10, noGo: 4, trials: 28, incorrect: 12, faults },
    ])
    expect(measure!.incorrectShare).toBeCloseTo(12 / 28, 14)
    expect(measure!.faults).toEqual([
      { code: 'shoulders-off', count: 6, ofIncorrect: 0.5 },
      { code: 'arm-off', count: 3, ofIncorrect: 0.25 },
      { code: 'flare-in', count: 3, ofIncorrect: 0.25 },
    ])
    const [major] = orderFailingMeasures([
      { measure: 'uniform', tested: 4, noGo: 1, ...none, faults: [{ code: 'x', count: 1 }] },
    ])
    expect(major).toMatchObject({ incorrectShare: null, faults: [{ ofIncorrect: null }] })
  })

  test('refuses more failures than tests', () => {
    expect(() => orderFailingMeasures([{ measure: 'draw', tested: 1, noGo: 2, ...none }])).toThrow(/at most 1/)
    expect(() =>
      orderFailingMeasures([{ measure: 'draw', tested: 1, noGo: 1, trials: 2, incorrect: 3, faults: [] }]),
    ).toThrow(/draw: incorrect/)
  })
})

describe('measures that fail together', () => {
  const counts = (both: number, firstOnly: number, secondOnly: number, neither: number) => ({
    both,
    firstOnly,
    secondOnly,
    neither,
  })

  /** A pair on sheets of one stratum alone. */
  const pair = (first: string, second: string, ...[a, b, c, d]: [number, number, number, number]) => ({
    first,
    second,
    counts: counts(a, b, c, d),
    strata: [{ a, b, c, d }],
  })

  test('the clear pair is called, a chance one is not, an undefined one says why and comes last', () => {
    const judged = failingTogether([
      pair('carry', 'draw', 0, 0, 5, 95),
      pair('halt', 'turn', 1, 3, 2, 94),
      pair('attention', 'present', 6, 24, 18, 72),
      pair('draw', 'return', 20, 5, 4, 71),
    ])
    expect(judged.map(({ first, second, verdict, n }) => [first, second, verdict, n])).toEqual([
      ['draw', 'return', 'together', 100],
      ['attention', 'present', 'not-shown', 120],
      ['carry', 'draw', 'undefined', 100],
      ['halt', 'turn', 'undefined', 100],
    ])
    expect(judged[2]).toMatchObject({ reason: 'one-never-varies' })
    expect(judged[3]).toMatchObject({ reason: 'too-few' })
    // By hand: 24 × 25 / 100 = 6 of both were to be expected.
    expect(judged[0]).toMatchObject({ expected: 6 })
  })

  test('what the score of ability explains is not called', () => {
    // Within each stratum independent, by hand; pooled 26 where 18.05 would be by chance.
    const strata = [
      { a: 25, b: 25, c: 25, d: 25 },
      { a: 1, b: 9, c: 9, d: 81 },
    ]
    const [judged] = failingTogether([{ first: 'a', second: 'b', counts: counts(26, 34, 34, 106), strata }])
    expect(judged).toMatchObject({ verdict: 'not-shown', expected: 26, phi: 0, p: 1 })
  })

  test('an undefined pair does not count in the family, and opposite failures are "apart"', () => {
    const apart = pair('a', 'b', 0, 30, 30, 40)
    const [alone] = failingTogether([apart])
    const [beside] = failingTogether([apart, pair('a', 'c', 0, 0, 0, 9)])
    expect(alone).toMatchObject({ verdict: 'apart' })
    expect(beside).toEqual(alone)
  })

  test('adjusts for the number of pairs: what is called alone is not among twenty', () => {
    const own = pair('a', 'b', 12, 12, 16, 60)
    const flat = Array.from({ length: 40 }, (_, i) => pair('a', `z${i}`, 8, 16, 24, 52))
    expect(failingTogether([own])[0]).toMatchObject({ second: 'b', verdict: 'together' })
    expect(failingTogether([...flat, own])[0]).toMatchObject({ second: 'b', verdict: 'not-shown' })
  })
})
