import type { Forecast, ListedForecast } from '#contract/ability/forecasts.ts'
import { formatDay } from '../../words/format-day.ts'
import { capital, counted, figure, inWords, listed } from '../../words/format-number.ts'
import { formatShare, formatShares } from '../../words/format-share.ts'

/** A forecast of the candidate's page or of a list. */
type ForecastSaid = Omit<ListedForecast, 'soldierId'>
/** The forecast of somebody's next test of a standard; undefined: not there yet, or not for this reader. */
export type ForecastOf = (soldierId: string, standard: string) => ListedForecast | undefined

type Chances = Pick<Forecast, 'pass' | 'low' | 'high'>

/** A chance in tenths: "about 7 in 10"; what is nearly none or nearly all is said so. */
export const formatChance = (chance: number): string => {
  if (chance < 0.05) return 'fewer than 1 in 20'
  if (chance > 0.95) return 'more than 19 in 20'
  return `about ${tenths(chance)} in 10`
}

/** A chance with its limits: "about 7 in 10 (5 to 8)". */
export const formatChances = ({ pass, low, high }: Chances): string =>
  `${formatChance(pass)} (${tenths(low)} to ${tenths(high)})`

const tenths = (chance: number): number => Math.round(chance * 10)

const KIND: Record<Forecast['kind'], string> = {
  first: 'first test',
  retest: 'retest',
  renewal: 'renewal',
}

/** The forecast as a statement about candidates like this one, never a verdict: "About 7 in 10 (5 to 8) with such a record pass the retest." */
export const formatForecast = (forecast: Forecast): string =>
  forecast.basis === 'model'
    ? `${capital(formatChances(forecast))} with such a record pass the ${KIND[forecast.kind]}.`
    : `${capital(formatChances(forecast))} pass the ${KIND[forecast.kind]}; that is the unit’s rate.`

/** In a list, what a chance rests on: "from 2 own tests and 314 of the unit"; where it is the unit's rate, that it is. */
export const formatRestsOn = ({ basis, sheets, fit, baseline, kind }: ForecastSaid): string => {
  if (basis === 'baseline') return `the unit’s rate in ${counted(baseline.tests, KIND[kind])}; a forecast was no better`
  const assumed = fit.byPriors ? ', much of it assumed' : ''
  if (sheets === 0) return `no test yet; from ${counted(fit.sheets, 'test')} of the unit${assumed}`
  return `from ${counted(sheets, 'own test')} and ${figure(fit.sheets)} of the unit${assumed}`
}

/** Percent and limits, and what they rest on: own tests, and those of the unit the model was fitted to. */
export const formatBasis = (forecast: Forecast, today: string): string => {
  const { pass, low, high, sheets, fit, basis, baseline } = forecast
  const percent = `${formatShare(pass)} (${formatShares({ low, high })})`
  if (basis === 'baseline') {
    const why =
      baseline.modelBrier === null || baseline.baselineBrier === null
        ? 'too few past tests of this kind to try a forecast on'
        : `a forecast from the candidate’s own record was no better on ${counted(baseline.checked, 'past test')} of this kind`
    return `${percent}. The rate of ${counted(baseline.tests, 'test')} of this kind in the unit: ${why}.`
  }
  const own = sheets === 0 ? 'no test of their own yet' : `${counted(sheets, 'test')} of their own`
  const through = fit.through === null ? '' : ` through ${formatDay(fit.through, today)}`
  const assumed = fit.byPriors ? ' Those are too few to learn from, so much is assumed.' : ''
  return `${percent}. Rests on ${own} and ${figure(fit.sheets)} of the unit${through}.${assumed}`
}

/** What it would take: "With draw and return correct 2 of 3 times each, about 7 in 10 instead of 4." '' where nothing is open. */
export const formatWhatItTakes = (
  { whatItTakes }: Pick<ListedForecast, 'whatItTakes'>,
  measureTitle: (code: string) => string,
): string => {
  if (!whatItTakes) return ''
  const { measures, correct, of, from, to } = whatItTakes
  if (tenths(to) <= tenths(from)) return ''
  const each = measures.length > 1 ? ' each' : ''
  return `With ${listed(measures.map(measureTitle))} correct ${inWords(correct)} times of ${inWords(of)}${each}, ${formatChance(to)} instead of ${tenths(from)}.`
}

/** Measures by what drilling them adds to the chance to pass, the most first; codes that the forecast does not know stay behind. */
export const byGain = <Item extends { readonly measure: string; readonly major: boolean }>(
  items: readonly Item[],
  forecast: Pick<ListedForecast, 'drill'> | undefined,
): Item[] => {
  const drill = forecast?.drill
  if (!drill) return [...items]
  const rank = new Map(drill.map(({ measure }, at) => [measure, at]))
  const place = ({ measure, major }: Item) => (major ? -1 : (rank.get(measure) ?? drill.length))
  return [...items].sort((a, b) => place(a) - place(b))
}
