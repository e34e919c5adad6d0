import type { ReadingFindings } from '#contract/findings/readings.ts'
import { formatBand } from '../../domain/standards/format-band.ts'
import { capital, counted, figure, inWords, plural } from '../../words/format-number.ts'
import { formatRate } from './format-failing.ts'

type Gauge = ReadingFindings['items'][number]

/** The share outside the band that is sure, for choosing what to show first. */
const outside = ({ low, high, readings }: Gauge): number => (readings < 5 ? 0 : (low.count + high.count) / readings)

/** Gauges in the order in which their readings lie outside the band, those with few readings last. */
export const byOutside = (gauges: readonly Gauge[]): Gauge[] =>
  [...gauges].sort((a, b) => outside(b) - outside(a) || b.readings - a.readings)

/** The answer on one gauge: how many readings were low and high. */
export const formatReadings = (gauge: Gauge | undefined): string => {
  if (!gauge) return 'No reading was taken within these filters.'
  const { low, high, readings, title } = gauge
  if (low.count + high.count === 0)
    return `${title}: ${readings === 1 ? 'the one reading lies' : `all ${figure(readings)} readings lie`} within the band.`
  const parts = [low.count > 0 ? `${figure(low.count)} low` : '', high.count > 0 ? `${figure(high.count)} high` : '']
  return `${title}: of ${counted(readings, 'reading')} ${parts.filter(Boolean).join(' and ')}.`
}

/** The band, and how sure the shares are. */
export const formatReadingsWhy = (gauge: Gauge | undefined): string => {
  if (!gauge) return 'Choose a longer period, another unit or standard; only gauges with readings are shown.'
  const { low, high, overridden } = gauge
  const shares = [
    gauge.min === null ? '' : `low ${formatRate(low)}`,
    gauge.max === null ? '' : `high ${formatRate(high)}`,
  ].filter(Boolean)
  const few = gauge.readings < 5 ? ' So few readings say little.' : ''
  const stood =
    overridden > 0
      ? ` ${capital(inWords(overridden))} outside ${plural(overridden, 'was', 'were')} let stand by the grader, with a reason.`
      : ''
  return `The band is ${formatBand(gauge)}${shares.length > 0 ? `: ${shares.join('; ')}` : ''}.${stood}${few}`
}

/** What the picture shows and what it does not. */
export const READINGS_PICTURE =
  'Solid bars lie within the band, hollow ones outside it; no bar mixes both. Readings of one soldier are alike, so the shares are somewhat less sure than their intervals say. Trials without a reading are not in it.'
