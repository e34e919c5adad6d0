import type {
  ForecastDates,
  PastReadiness,
  ReadinessForecast,
} from '#contract/readiness-forecast/readiness-forecast.ts'
import { formatDayInFull } from '../../words/format-day.ts'
import { capital, counted, figure, inWords } from '../../words/format-number.ts'

type Summary = ForecastDates['items'][number]

/** A chance as one speaks of it: "9 in 10"; what is neither certain nor impossible never looks so. */
export const formatInTen = (chance: number): string => {
  if (chance >= 1) return 'certain'
  if (chance <= 0) return 'no chance'
  const tenths = Math.round(chance * 10)
  if (tenths === 10) return 'all but certain'
  return tenths === 0 ? 'hardly a chance' : `${tenths} in 10`
}

/** "41 of 48 expected, 38 to 44" */
export const formatExpected = ({ required, expected, low, high }: Summary): string => {
  const mean = `${figure(Math.round(expected))} of ${figure(required)} expected`
  return low === high ? `${mean}, as good as certain` : `${mean}, ${figure(low)} to ${figure(high)}`
}

/** "enough for the ceremonies of that day: 9 in 10" */
export const formatEnough = ({ need }: Summary): string =>
  need
    ? `enough for the ${need.ceremonies.length === 1 ? 'ceremony' : 'ceremonies'} of that day: ${formatInTen(need.chance)}`
    : ''

/** "On Thursday 31 December, Sword: 41 of 48 expected, 38 to 44; enough for the ceremonies of that day: 9 in 10." */
export const formatAhead = (item: Summary, title: string, today: string): string =>
  `On ${formatDayInFull(item.on, today)}, ${title}: ${[formatExpected(item), formatEnough(item)].filter(Boolean).join('; ')}.`

/** What the figure is made of. */
export function formatGround({ certifiedNow, lapsing, booked, required }: Summary): string {
  const parts = [
    `${figure(certifiedNow)} of ${figure(required)} are certified today`,
    lapsing === 0
      ? 'none of them lapses until then'
      : `${figure(lapsing)} of them ${lapsing === 1 ? 'lapses' : 'lapse'} until then unless renewed`,
    booked === 0
      ? 'nobody is booked for a test until then'
      : `${counted(booked, 'soldier')} ${booked === 1 ? 'has' : 'have'} a test booked until then`,
  ]
  return `${capital(parts.join(', '))}.`
}

const BASES: Record<ReadinessForecast['basis'], string> = {
  record: 'No test that is booked matters for it; only lapses do.',
  model: 'Chances to pass are the forecasts of each candidate.',
  baseline:
    'Chances to pass are the unit’s pass rate in that kind of attempt, since forecasts have done no better there.',
  mixed:
    'Chances to pass are the forecasts of each candidate and, where these have done no better, the unit’s pass rate in that kind of attempt.',
}

/** What is assumed. */
export const formatAssumed = ({ basis }: Summary): string =>
  `${BASES[basis]} Tests of one soldier in the same standard are worked out together; otherwise soldiers and standards are taken as independent of each other. Only tests that are booked count: whoever is booked later, retests among them, comes on top.`

/** How often the interval held. */
export function formatPast({ items, held }: PastReadiness): string {
  if (items.length === 0) return 'There is no month yet to hold such a forecast against.'
  const more = items.filter(({ came, high }) => came > high).length
  const fewer = items.filter(({ came, low }) => came < low).length
  const missed = [
    more > 0 ? `${inWords(more)} ${more === 1 ? 'time' : 'times'} more were certified` : '',
    fewer > 0 ? `${inWords(fewer)} ${fewer === 1 ? 'time' : 'times'} fewer` : '',
  ].filter(Boolean)
  const outcome = missed.length === 0 ? '' : `; ${missed.join(', ')}`
  return `The interval held ${inWords(held)} of ${inWords(items.length)} ${items.length === 1 ? 'time' : 'times'} (eight of ten is what it promises)${outcome}.`
}
