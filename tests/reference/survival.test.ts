import { describe, expect, test } from 'vitest'
import { logRank } from '../../server/domain/statistics/survival/log-rank.ts'
import type { TimeTally } from '../../server/domain/statistics/survival/time-tally.ts'
import { expectDigits } from './support/expect-digits.ts'
import { kaplanMeier } from './support/kaplan-meier.ts'
import { readCsv } from './support/read-csv.ts'

// E. J. Freireich et al. (1963), Blood 21:699–716, as printed in D. R. Cox & D. Oakes (1984), Analysis of Survival
// Data, p. 8, and E. A. Gehan (1965), Biometrika 52:203–223. Figures: grodri.github.io/survival/gehan, recomputed
// with R survival 3.5-3.
function group(name: string): TimeTally[] {
  return readCsv('freireich_6mp.csv')
    .filter((row) => row.group === name)
    .map(({ time, status }) => ({ time: Number(time), events: Number(status), censored: 1 - Number(status) }))
}
const groups = [...new Set(readCsv('freireich_6mp.csv').map((row) => row.group!))]
const treated = group('6-MP')
const placebo = group(groups.find((name) => name !== '6-MP')!)

function curve(tallies: readonly TimeTally[], ...rest: ['log' | 'log-log'] | []) {
  const result = kaplanMeier(tallies, ...rest)
  if (result.kind !== 'curve') throw new Error(result.kind)
  return result
}

describe('Kaplan–Meier with Greenwood, Freireich et al. 1963', () => {
  test('6-MP: survival and standard errors', () => {
    const { points, subjects, events, censored } = curve(treated)
    expect({ subjects, events, censored }).toEqual({ subjects: 21, events: 9, censored: 12 })
    const printed = `6 21 .857143 .07636|7 17 .806723 .08694|10 15 .752941 .09635|13 12 .690196 .10681
      |16 11 .627451 .11405|22 7 .537815 .12823|23 6 .448179 .13459`
    const withEvents = points.filter((point) => point.events > 0)
    printed.split('|').forEach((line, i) => {
      const [time, atRisk, survival, error] = line.trim().split(' ')
      expect([withEvents[i]!.time, withEvents[i]!.atRisk]).toEqual([Number(time), Number(atRisk)])
      expectDigits(withEvents[i]!.survival, survival!)
      expectDigits(withEvents[i]!.standardError, error!)
    })
    expect(withEvents).toHaveLength(7)
  })

  test('placebo: survival down to 0, where there is no limit any more', () => {
    const { points } = curve(placebo)
    const printed = `1 .90476|2 .80952|3 .76190|4 .66667|5 .57143|8 .38095|11 .28571
      |12 .19048|15 .14286|17 .09524|22 .04762|23 0`
    printed.split('|').forEach((line, i) => {
      const [time, survival] = line.trim().split(' ')
      expect(points[i]!.time).toBe(Number(time))
      expect(points[i]!.survival).toBeCloseTo(Number(survival), 5)
    })
    expect(points.at(-1)).toMatchObject({ survival: 0, standardError: null, interval: null })
  })

  test('a censored subject at the time of an event counts as at risk', () => {
    expect(curve(treated).points[0]).toMatchObject({ time: 6, atRisk: 21, events: 3, censored: 1 })
  })
})

test('log-rank of 6-MP against placebo', () => {
  const result = logRank([
    { key: '6-MP', tallies: treated },
    { key: 'placebo', tallies: placebo },
  ])
  if (result.kind !== 'compared') throw new Error(result.kind)
  expect(result.groups.map(({ observed }) => observed)).toEqual([9, 21])
  expectDigits(result.groups[0]!.expected, '19.2505009480')
  expectDigits(result.groups[1]!.expected, '10.7494990520')
  expectDigits(result.covariance[0]![0], '6.25696057368')
  expectDigits(result.chiSquare, '16.79')
  expectDigits(result.chiSquare, '16.7929409892')
  expectDigits(result.p * 1e5, '4.1688')
  expect(result).toMatchObject({ degreesOfFreedom: 1, differs: true })
})

// The placebo group split in file order into its first ten and the rest; recomputed with an independent program
// (numpy, pseudo-inverse of the full covariance matrix), no publication claimed.
test('log-rank of three groups', () => {
  const one = placebo.slice(0, 10)
  const two = placebo.slice(10)
  const result = logRank([treated, one, two].map((tallies, i) => ({ key: `${i}`, tallies })))
  if (result.kind !== 'compared') throw new Error(result.kind)
  expectDigits(result.groups[1]!.expected, '1.74403305')
  expectDigits(result.groups[2]!.expected, '9.005466')
  expectDigits(result.chiSquare, '52.34067792851')
  expectDigits(result.p * 1e12, '4.308898')
  expect(result.degreesOfFreedom).toBe(2)
})
