import type { ForecastFindings } from '#contract/findings/forecast.ts'
import { capital, counted, listed } from '../../words/format-number.ts'
import { formatCoefficient, formatCoefficients } from '../../words/format-share.ts'

const KINDS = { first: 'first tests', retest: 'retests', renewal: 'renewals' } as const

type Limits = { low: number | null; high: number | null } | null

const isIn = (limits: Limits, value: number): boolean =>
  limits === null || ((limits.low ?? value) <= value && value <= (limits.high ?? value))

/** Whether forecasts told more than the unit's pass rate would have, as far as can be told. */
export const formatForecasts = ({ n, baselines }: ForecastFindings): string => {
  if (n === 0) return 'No past test has a forecast from the day before yet.'
  const [byKind] = baselines
  if (!byKind) return `${counted(n, 'past test')} had a forecast the day before.`
  const { low, high } = byKind.gainInterval
  if (low !== null && low > 0) return 'Forecasts told more than the unit’s pass rate would have.'
  if (high !== null && high < 0) return 'Forecasts told less than the unit’s pass rate would have.'
  return 'Forecasts can’t be told from the unit’s pass rate.'
}

/** Which kinds of attempt are forecast by the model, and which by the unit's rate instead. */
export const formatForecastsWhy = ({ n, kinds }: ForecastFindings): string => {
  if (n === 0) return 'They are made in the background once tests with marks count; look again tomorrow.'
  const of = (shown: 'model' | 'baseline') => kinds.filter((one) => one.shown === shown).map(({ kind }) => KINDS[kind])
  const [model, rate] = [of('model'), of('baseline')]
  const parts = [
    model.length > 0 ? `${listed(model)} are forecast from the candidate’s own record` : '',
    rate.length > 0 ? `for ${listed(rate)} the unit’s pass rate is shown instead, for it was no worse` : '',
  ].filter(Boolean)
  return `${capital(parts.join('; '))}. Each was worked out only from what was on record the day before the test.`
}

/** Whether forecasts were too high, too low, too bold or too timid; "right" where nothing speaks against it. */
export const formatCalibration = ({ slope, slopeInterval, intercept, interceptInterval }: ForecastFindings): string => {
  if (slope === null || intercept === null) return 'Too few tests to say whether forecasts were too high or too low.'
  const level = isIn(interceptInterval, 0)
    ? 'neither too high nor too low on the whole'
    : intercept > 0
      ? 'too low on the whole: more passed'
      : 'too high on the whole: fewer passed'
  const spread = isIn(slopeInterval, 1)
    ? 'neither too bold nor too timid'
    : slope < 1
      ? 'too bold: what looked sure was less so'
      : 'too timid: what looked sure was more so'
  return `They were ${level}, and ${spread}. Calibration intercept ${formatWith(intercept, interceptInterval)}, 0 is right; slope ${formatWith(slope, slopeInterval)}, 1 is right.`
}

const formatWith = (value: number, limits: Limits): string =>
  limits && limits.low !== null && limits.high !== null
    ? `${formatCoefficient(value)} (${formatCoefficients({ low: limits.low, high: limits.high })})`
    : formatCoefficient(value)
