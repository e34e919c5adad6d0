import type { TrendFindings } from '#contract/findings/trend.ts'
import { formatMonth } from '../../words/format-month.ts'
import { capital, countedInWords, figure, inWords, listed, plural } from '../../words/format-number.ts'
import { formatShare } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'

type Series = TrendFindings['series'][number]
type Point = Series['points'][number]

/** A point past three-sigma limits by chance: 0.00135 on each side. */
const LIMIT_BY_CHANCE = 0.0027

/** The last eight on one side, each side with an even chance: 2 × ½⁸; the first seven points of a chart can't be. */
const RUN_BY_CHANCE = 2 * 0.5 ** 8
const BEFORE_A_RUN = 7

const signalled = ({ points }: Pick<Series, 'points'>, signal: Point['signals'][number]): Point[] =>
  points.filter(({ signals }) => signals.includes(signal))

const formatBeyond = ({ month, count, n, beyond, low, high }: Point): string => {
  const usual =
    beyond === 'below'
      ? `at least ${figure(Math.ceil((low ?? 0) * n))} is usual`
      : `up to ${figure(Math.floor((high ?? 1) * n))} is usual`
  return `NO-GO in ${ofAll(count, n)} in ${formatMonth(month)}, where ${usual}`
}

const formatRun = (last: Point, centre: number): string =>
  `eight months or more in a row ${(last.rate ?? 0) < centre ? 'below' : 'above'} the usual ${formatShare(centre)}, up to ${formatMonth(last.month)}`

/** What is unusual about one series, in words; '' when nothing is. */
export const formatUnusual = (series: Pick<Series, 'points' | 'centre'>): string => {
  const beyond = signalled(series, 'beyond-limit').map(formatBeyond)
  const run = signalled(series, 'run-of-eight').at(-1)
  return [...beyond, ...(run ? [formatRun(run, series.centre)] : [])].join('; ')
}

/** The answer for one measure or test: the unusual months, or that there are none. */
export const formatTrend = (series: Pick<Series, 'points' | 'centre' | 'n'> | undefined, name: string): string => {
  if (!series || series.n === 0) return 'No test counts for these filters yet.'
  const unusual = formatUnusual(series)
  if (unusual) return `${name}: ${unusual}.`
  const months = series.points.filter(({ n }) => n > 0).length
  if (months === 1) return `${name}: one month of tests shows no trend yet.`
  return `${name}: no month of ${inWords(months)} was unusual; ${formatShare(series.centre)} NO-GO throughout.`
}

/** What is unusual elsewhere, and how much of it chance alone would bring. */
export const formatTrendWhy = (all: readonly Series[], shown: Series | undefined, judgedMonths: number): string => {
  if (judgedMonths === 0) return 'Choose a longer period, another unit, or all attempts.'
  const others = all.filter((series) => series !== shown && formatUnusual(series) !== '').length
  const forRuns = Math.max(0, judgedMonths - BEFORE_A_RUN * all.length)
  const byChance = Math.round(judgedMonths * LIMIT_BY_CHANCE + forRuns * RUN_BY_CHANCE)
  const elsewhere =
    others === 0
      ? 'Nothing else is unusual.'
      : `${capital(countedInWords(others, 'other chart'))} ${plural(others, 'has', 'have')} something unusual.`
  return `${elsewhere} Of ${figure(judgedMonths)} months in all charts ${byChance === 0 ? 'hardly one' : `about ${inWords(byChance)}`} would be called unusual by chance alone.`
}

/** What the chart shows and what it does not. */
export const formatTrendPicture = ({ points, count }: Pick<Series, 'points' | 'count'>): string => {
  const isRare = count < points.filter(({ n }) => n > 0).length
  const rare = isRare
    ? ' With less than one NO-GO a month, months without any follow each other often: a run below says little here.'
    : ''
  const near = points.filter(({ beyond, signals }) => beyond !== null && signals.length === 0)
  const doubt =
    near.length > 0
      ? ` ${capital(listed(near.map(({ month }) => formatMonth(month))))} ${plural(near.length, 'lies', 'lie')} outside the lines, but with so few tested chance does that too often to call it unusual.`
      : ''
  return `Between the lines a month does not differ from the others, however it looks beside the month before; the lines are wider where fewer were tested.${doubt} A month is unusual beyond the lines, or as the eighth in a row on one side.${rare} The chart does not say why.`
}
