import type { Forecast } from '#contract/ability/forecasts.ts'
import { sayDay } from '../../words/say-day.ts'
import { capital, counted, figure, inWords, listed } from '../../words/say-number.ts'
import { sayShare, sayShares } from '../../words/say-share.ts'

/** A chance in tenths: "about 7 in 10"; what is nearly none or nearly all is said so. */
export const sayChance = (chance: number): string => {
  if (chance < 0.05) return 'fewer than 1 in 20'
  if (chance > 0.95) return 'more than 19 in 20'
  return `about ${tenths(chance)} in 10`
}

/** A chance with its limits: "about 7 in 10 (5 to 8)". */
export const sayChances = ({ pass, low, high }: Pick<Forecast, 'pass' | 'low' | 'high'>): string =>
  `${sayChance(pass)} (${tenths(low)} to ${tenths(high)})`

const tenths = (chance: number): number => Math.round(chance * 10)

const KIND: Record<Forecast['kind'], string> = {
  first: 'first test',
  retest: 'retest',
  renewal: 'renewal',
}

/** The forecast as a statement about candidates like this one, never a verdict: "About 7 in 10 (5 to 8) with such a record pass the retest." */
export const sayForecast = (forecast: Forecast): string =>
  forecast.basis === 'model'
    ? `${capital(sayChances(forecast))} with such a record pass the ${KIND[forecast.kind]}.`
    : `${capital(sayChances(forecast))} pass the ${KIND[forecast.kind]}; that is the unit’s rate.`

/** Percent and limits, and what they rest on: own tests, and those of the unit the model was fitted to. */
export const sayBasis = (forecast: Forecast, today: string): string => {
  const { pass, low, high, sheets, fit, basis, baseline } = forecast
  const percent = `${sayShare(pass)} (${sayShares({ low, high })})`
  if (basis === 'baseline') {
    const why =
      baseline.modelBrier === null || baseline.baselineBrier === null
        ? 'too few past tests of this kind to try a forecast on'
        : `a forecast from the candidate’s own record was no better on ${counted(baseline.checked, 'past test')} of this kind`
    return `${percent}. The rate of ${counted(baseline.tests, 'test')} of this kind in the unit: ${why}.`
  }
  const own = sheets === 0 ? 'no test of their own yet' : `${counted(sheets, 'test')} of their own`
  const through = fit.through === null ? '' : ` through ${sayDay(fit.through, today)}`
  const assumed = fit.byPriors ? ' Those are too few to learn from, so much is assumed.' : ''
  return `${percent}. Rests on ${own} and ${figure(fit.sheets)} of the unit${through}.${assumed}`
}

/** What it would take: "With draw and return correct 2 of 3 times each, about 7 in 10 instead of 4." '' where nothing is open. */
export const sayWhatItTakes = ({ whatItTakes }: Forecast, measureTitle: (code: string) => string): string => {
  if (whatItTakes === null) return ''
  const { measures, correct, of, from, to } = whatItTakes
  if (tenths(to) <= tenths(from)) return ''
  const each = measures.length > 1 ? ' each' : ''
  return `With ${listed(measures.map(measureTitle))} correct ${inWords(correct)} times of ${inWords(of)}${each}, ${sayChance(to)} instead of ${tenths(from)}.`
}

/** Measures by what drilling them adds to the chance to pass, the most first; codes that the forecast does not know stay behind. */
export const byGain = <Item extends { readonly measure: string; readonly major: boolean }>(
  items: readonly Item[],
  forecast: Pick<Forecast, 'drill'> | undefined,
): Item[] => {
  if (!forecast) return [...items]
  const rank = new Map(forecast.drill.map(({ measure }, at) => [measure, at]))
  const place = ({ measure, major }: Item) => (major ? -1 : (rank.get(measure) ?? forecast.drill.length))
  return [...items].sort((a, b) => place(a) - place(b))
}
