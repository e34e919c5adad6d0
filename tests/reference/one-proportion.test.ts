import { describe, expect, test } from 'vitest'
import { normalCumulative } from '../../server/domain/statistics/numeric/normal-cumulative.ts'
import { exactInterval } from '../../server/domain/statistics/proportions/exact-interval.ts'
import { judgeRate } from '../../server/domain/statistics/proportions/judge-rate.ts'
import type { ProportionInterval } from '../../server/domain/statistics/proportions/proportion-interval.ts'
import { wilsonInterval } from '../../server/domain/statistics/proportions/wilson-interval.ts'
import { expectDigits, expectInterval } from './support/expect-digits.ts'

function limits(result: ProportionInterval): { low: number; high: number } {
  if (result.kind !== 'interval') throw new Error(result.kind)
  return result
}

// R. G. Newcombe (1998), Statistics in Medicine 17:857–872, Table I; the longer digits recomputed with R 4.2.2.
describe('Newcombe 1998, Table I', () => {
  test('Wilson score (method 3)', () => {
    expectInterval(limits(wilsonInterval({ count: 81, n: 263 })), '.2553 – .3662')
    expectInterval(limits(wilsonInterval({ count: 81, n: 263 })), '.2552885199 – .3662095770')
    expectInterval(limits(wilsonInterval({ count: 15, n: 148 })), '.0624 – .1605')
    expectInterval(limits(wilsonInterval({ count: 15, n: 148 })), '.0623863995 – .1604872417')
  })

  test('Clopper–Pearson (method 5)', () => {
    expectInterval(limits(exactInterval({ count: 81, n: 263 })), '.2527 – .3676')
    expectInterval(limits(exactInterval({ count: 81, n: 263 })), '.2527367456 – .3676219226')
    expectInterval(limits(exactInterval({ count: 15, n: 148 })), '.0578 – .1617')
    expectInterval(limits(exactInterval({ count: 15, n: 148 })), '.0578440101 – .1616504903')
  })
})

// NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.4.2 (published .071354 – .401029, whose upper limit is off by
// one in its last digit; the longer digits recomputed with R 4.2.2).
test('NIST 7.2.4.2: 4 defectives of 20 at 90 %', () => {
  const exact = limits(exactInterval({ count: 4, n: 20 }, 0.9))
  expect(Math.abs(exact.low - 0.071354)).toBeLessThan(2e-6)
  expect(Math.abs(exact.high - 0.401029)).toBeLessThan(2e-6)
  expectInterval(exact, '.0713538843 – .4010281173')
  expectInterval(limits(wilsonInterval({ count: 4, n: 20 }, 0.9)), '.0931180166 – .3783766858')
})

// Unrounded Wilson intervals at z = 1.96 exactly: codegolf.stackexchange.com, question 105389.
test('Wilson to the last digit at z = 1.96', () => {
  const level = 2 * normalCumulative(1.96) - 1
  const cases = [
    [0, 1, 0, 0.7934567085261071],
    [1, 1, 0.09452865480086611, 0.905471345199134],
    [1, 10, 0.016231752262825982, 0.3773646254862038],
  ] as const
  for (const [successes, failures, low, high] of cases) {
    const interval = limits(wilsonInterval({ count: successes, n: successes + failures }, level))
    expect(interval.low).toBeCloseTo(low, 13)
    expect(interval.high).toBeCloseTo(high, 13)
  }
})

// Thirteen measures; recomputed with R 4.2.2 (prop.test, binom.test) and the closed forms.
describe('13 measures', () => {
  test('10 of 13', () => {
    expectInterval(limits(wilsonInterval({ count: 10, n: 13 })), '.4974362405 – .9182047128')
    expectInterval(limits(exactInterval({ count: 10, n: 13 })), '.4618684608 – .9496189265')
  })

  test('all and none of 13 reach the end of the scale exactly', () => {
    const all = limits(wilsonInterval({ count: 13, n: 13 }))
    expectDigits(all.low, '.7719046276')
    expect(all.high).toBe(1)
    const none = limits(wilsonInterval({ count: 0, n: 13 }))
    expect(none.low).toBe(0)
    expectDigits(none.high, '.2280953724')
    expectDigits(limits(exactInterval({ count: 13, n: 13 })).low, '.7529473620')
    expect(limits(exactInterval({ count: 13, n: 13 })).high).toBe(1)
    expectDigits(limits(exactInterval({ count: 0, n: 13 })).high, '.2470526380')
    expect(limits(exactInterval({ count: 0, n: 13 })).low).toBe(0)
  })
})

test('none of none is no data, never 0 to 1', () => {
  expect(wilsonInterval({ count: 0, n: 0 })).toEqual({ kind: 'no-data' })
  expect(exactInterval({ count: 0, n: 0 })).toEqual({ kind: 'no-data' })
  expect(judgeRate({ count: 0, n: 0 })).toEqual({ kind: 'no-data' })
})
