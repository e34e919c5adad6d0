import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { combineSeverities } from '../../../../server/domain/ability/grader-severity.ts'

const part = fc
  .record({
    own: fc.double({ min: -3, max: 3, noNaN: true }),
    precision: fc.double({ min: 0.5, max: 60, noNaN: true }),
    spread: fc.double({ min: 0.1, max: 1, noNaN: true }),
  })
  // What a normal fit says: the mean of what the data say and of 0, weighted by their precision.
  .map(({ own, precision, spread }) => {
    const variance = 1 / (precision + 1 / spread ** 2)
    return { own, precision, spread, variance, severity: own * precision * variance }
  })

describe('a grader’s severity over several standards', () => {
  it('is that of the one standard where there is one', () => {
    fc.assert(
      fc.property(part, ({ severity, variance, spread, own, precision }) => {
        const found = combineSeverities([{ severity, variance, spread }])!
        expect(found.severity).toBeCloseTo(severity, 9)
        expect(found.sd).toBeCloseTo(Math.sqrt(variance), 9)
        expect(found.low).toBeCloseTo(severity - 1.959963984540054 * Math.sqrt(variance), 9)
        // The test is of what the data say by themselves.
        expect(found.p <= 0.05).toBe(Math.abs(own) * Math.sqrt(precision) >= 1.959963984540054)
      }),
    )
  })

  it('by hand: 1 with precision 4 and 0.5 with precision 12, spread 0.5 in both', () => {
    const of = (own: number, precision: number) => {
      return { severity: (own * precision) / (precision + 4), variance: 1 / (precision + 4), spread: 0.5 }
    }
    const found = combineSeverities([of(1, 4), of(0.5, 12)])!
    // By themselves 10/16 with precision 16; drawn by precision 4 to 10/20.
    expect(found.severity).toBeCloseTo(0.5, 12)
    expect(found.sd).toBeCloseTo(1 / Math.sqrt(20), 12)
    expect(found.p).toBeCloseTo(0.01241933065, 9) // 2 Φ(−2.5)
  })

  it('is in any order the same, and none where nothing is known', () => {
    fc.assert(
      fc.property(fc.array(part, { minLength: 2, maxLength: 4 }), (parts) => {
        const [found, turned] = [combineSeverities(parts)!, combineSeverities(parts.toReversed())!]
        expect(found.severity).toBeCloseTo(turned.severity, 9)
        expect(found.sd).toBeLessThanOrEqual(Math.max(...parts.map(({ spread }) => spread)))
      }),
    )
    expect(combineSeverities([])).toBeNull()
    expect(combineSeverities([{ severity: 0, variance: 0.25, spread: 0.5 }])).toBeNull()
  })
})
