import '../statistics/fixed-seed.ts'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { toMillionths } from '../../../../server/domain/scoring/decimal.ts'

describe('toMillionths', () => {
  it.each([
    ['6', 6_000_000],
    ['6.0', 6_000_000],
    ['006.000000', 6_000_000],
    ['6.01', 6_010_000],
    ['-3.99', -3_990_000],
    ['0.1', 100_000],
    ['0.000001', 1],
    ['999999999.999999', 999_999_999_999_999],
  ])('reads %s', (text, millionths) => {
    expect(toMillionths(text)).toBe(millionths)
  })

  it.each(['', ' 6', '6 ', '+6', '6.', '.5', '6,5', '1e2', '0x10', '--6', '6.0000001', '1234567890', 'NaN', '٦'])(
    'refuses "%s"',
    (text) => {
      expect(() => toMillionths(text)).toThrow(RangeError)
    },
  )

  it('is exact, digit for digit', () => {
    const limit = 999_999_999_999_999n
    fc.assert(
      fc.property(fc.bigInt({ min: -limit, max: limit }), (millionths) => {
        const digits = String(millionths < 0n ? -millionths : millionths).padStart(7, '0')
        const text = `${millionths < 0n ? '-' : ''}${digits.slice(0, -6)}.${digits.slice(-6)}`
        expect(BigInt(toMillionths(text))).toBe(millionths)
      }),
    )
  })
})
