import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { candidatePosterior } from '../../../server/domain/ability/candidate-posterior.ts'
import { passForecast } from '../../../server/domain/ability/pass-forecast.ts'

/*
 * Forecasts at fixed parameters, worked out by an independent program by brute force: trapezoids over every random effect,
 * where finer grids change nothing above 2e-6. FORECAST_CASES names another file of such cases.
 */
interface Case {
  id: string
  trials: number
  needed: number
  minimum: number
  measures: number[]
  majors: number[]
  sd: { candidate: number; measure: number; sheet: number }
  sheets: { gain: number; minors: [correct: number, tried: number][] }[]
  next: { gain: number }
  expected: { minors: number; pass: number; measures: number[]; drill: number[] }
}

const file = process.env.FORECAST_CASES || path.join(import.meta.dirname, '../../cases/forecast-cases.json')
const cases = JSON.parse(fs.readFileSync(file, 'utf8')) as Case[]
const TOLERANCE = 0.01

function forecast({ trials, needed, minimum, measures, majors, sd, sheets, next }: Case) {
  const strengthOf = measures.map((_, place) => place)
  const past = sheets.map(({ gain, minors }) => ({
    measures: strengthOf,
    correct: minors.map(([correct]) => correct),
    tried: minors.map(([, tried]) => tried),
    shift: gain,
    shiftVariance: 0,
  }))
  const posterior = candidatePosterior({ ease: measures, strengthOf, spread: { ...sd, grader: 0 } }, past)
  return passForecast(posterior, {
    measures: measures.map((ease, strength) => ({ logit: ease + next.gain, strength })),
    trials,
    needed,
    minimum,
    majors,
    dayVariance: sd.sheet ** 2,
  })
}

function farthest(actual: readonly number[], expected: readonly number[]): number {
  expect(actual).toHaveLength(expected.length)
  return Math.max(0, ...expected.map((value, i) => Math.abs(actual[i]! - value)))
}

test('there are cases', () => expect(cases.length).toBeGreaterThanOrEqual(60))

describe('forecasts by brute force', () => {
  test.each(cases.map((one) => [one.id, one] as const))('%s', (_, one) => {
    const { minors, pass, low, high, measures, gains } = forecast(one)
    expect(Math.abs(minors - one.expected.minors)).toBeLessThan(TOLERANCE)
    expect(Math.abs(pass - one.expected.pass)).toBeLessThan(TOLERANCE)
    expect(farthest(measures, one.expected.measures)).toBeLessThan(TOLERANCE)
    expect(farthest(gains, one.expected.drill)).toBeLessThan(TOLERANCE)
    expect(low).toBeLessThanOrEqual(pass)
    expect(high).toBeGreaterThanOrEqual(pass)
  })
})
