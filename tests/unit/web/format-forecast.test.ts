import { describe, expect, it } from 'vitest'
import type { Forecast } from '../../../server/contract/ability/forecasts.ts'
import {
  byGain,
  formatBasis,
  formatChance,
  formatChances,
  formatForecast,
  formatRestsOn,
  formatWhatItTakes,
} from '../../../web/domain/ability/format-forecast.ts'

const forecast = (given: Partial<Forecast> = {}): Forecast => ({
  standard: 'standing',
  kind: 'retest',
  pass: 0.68,
  low: 0.49,
  high: 0.81,
  basis: 'model',
  sheets: 2,
  sheetIds: [],
  measures: [],
  drill: [],
  goSince: [],
  notReached: [],
  whatItTakes: { measures: ['draw', 'return'], correct: 2, of: 3, from: 0.41, to: 0.72 },
  baseline: { rate: 0.6, tests: 240, checked: 180, modelBrier: 0.2, baselineBrier: 0.22 },
  fit: { sheets: 1204, through: '2026-11-27', fittedAt: '2026-11-28T01:00:00Z', byPriors: false },
  ...given,
})

describe('a chance in words', () => {
  it.each([
    [0, 'fewer than 1 in 20'],
    [0.049, 'fewer than 1 in 20'],
    [0.051, 'about 1 in 10'],
    [0.449, 'about 4 in 10'],
    [0.451, 'about 5 in 10'],
    [0.949, 'about 9 in 10'],
    [0.951, 'more than 19 in 20'],
    [1, 'more than 19 in 20'],
  ])('%d is %s', (chance, words) => expect(formatChance(chance)).toBe(words))

  it('has its limits beside it', () => expect(formatChances(forecast())).toBe('about 7 in 10 (5 to 8)'))
})

describe('a forecast in words', () => {
  it('speaks of candidates with such a record, not of this one', () => {
    expect(formatForecast(forecast())).toBe('About 7 in 10 (5 to 8) with such a record pass the retest.')
  })

  it('says in a list what it rests on', () => {
    expect(formatRestsOn(forecast())).toBe('from 2 own tests and 1,204 of the unit')
    expect(formatRestsOn(forecast({ sheets: 0 }))).toBe('no test yet; from 1,204 tests of the unit')
    expect(formatRestsOn(forecast({ basis: 'baseline' }))).toBe(
      'the unit’s rate in 240 retests; a forecast was no better',
    )
    const few = { ...forecast().fit, sheets: 12, byPriors: true }
    expect(formatRestsOn(forecast({ sheets: 1, fit: few }))).toBe(
      'from 1 own test and 12 of the unit, much of it assumed',
    )
  })

  it('says where it is only the rate of the unit, and why', () => {
    const baseline = forecast({ basis: 'baseline', pass: 0.6, low: 0.5, high: 0.7, kind: 'renewal' })
    expect(formatForecast(baseline)).toBe('About 6 in 10 (5 to 7) pass the renewal; that is the unit’s rate.')
    expect(formatBasis(baseline, '2026-11-30')).toContain('no better on 180 past tests')
    const untried = {
      ...baseline,
      baseline: { ...baseline.baseline, checked: 0, modelBrier: null, baselineBrier: null },
    }
    expect(formatBasis(untried, '2026-11-30')).toContain('too few past tests of this kind')
  })

  it('says what it rests on in whole percent', () => {
    const words = formatBasis(forecast(), '2026-11-30')
    expect(words.replaceAll('\u00a0', ' ')).toMatch(
      /^68 % \(49 to 81 %\)\. Rests on 2 tests of their own and 1,204 of the unit through /,
    )
    expect(words).not.toMatch(/\d\.\d/)
    expect(formatBasis(forecast({ sheets: 0 }), '2026-11-30')).toContain('no test of their own yet')
    const assumed = forecast({ fit: { sheets: 3, through: null, fittedAt: '2026-11-28T01:00:00Z', byPriors: true } })
    expect(formatBasis(assumed, '2026-11-30')).toContain('much is assumed')
  })

  it('says what would raise it, and nothing where that would raise it by less than one in ten', () => {
    expect(formatWhatItTakes(forecast(), (code) => code)).toBe(
      'With draw and return correct two times of three each, about 7 in 10 instead of 4.',
    )
    const little = { measures: ['draw'], correct: 2, of: 3, from: 0.68, to: 0.7 }
    expect(formatWhatItTakes(forecast({ whatItTakes: little }), (code) => code)).toBe('')
    expect(formatWhatItTakes(forecast({ whatItTakes: null }), (code) => code)).toBe('')
  })
})

it('measures are ordered by what drilling them gains, majors before them', () => {
  const items = ['a', 'b', 'unknown'].map((measure) => ({ measure, major: false }))
  const drill = [
    { measure: 'b', gain: 0.1 },
    { measure: 'a', gain: 0.05 },
  ]
  const ordered = byGain([...items, { measure: 'uniform', major: true }], { drill })
  expect(ordered.map(({ measure }) => measure)).toEqual(['uniform', 'b', 'a', 'unknown'])
  expect(byGain(items, undefined)).toEqual(items)
})
