import type { MeasureFindings } from '#contract/findings/findings.ts'
import { FEW } from '../../domain/findings/failing-order.ts'
import { capital, countedInWords, figure, inWords, plural } from '../../words/format-number.ts'
import { formatShare, formatShares } from '../../words/format-share.ts'
import { ofAll } from '../../words/of-all.ts'

type Measure = MeasureFindings['items'][number]
type Judged = Pick<Measure, 'rate'>

/** How sure a rate is, in a cell: "43 %, 38 to 49 %"; without tests ''. */
export const formatRate = ({ rate, interval }: Measure['rate']): string =>
  rate === null || interval === null ? '' : `${formatShare(rate)}, ${formatShares(interval)}`

/** What was not reached, and between which shares NO-GO lies whatever became of it: "12; with them 18 to 27 %"; '' for none. */
export const formatNotReached = (notReached: Measure['notReached']): string =>
  notReached === null ? '' : `${figure(notReached.count)}; with them ${formatShares(notReached)}`

/**
 * What the picture of failing measures tells and what it does not: whether the first in order, by rate, is told from those
 * behind it. `inOrder` begins with the measure that fails most.
 */
export const formatFailingPicture = (inOrder: readonly Judged[], titleOf: (index: number) => string): string => {
  const [worst] = inOrder
  if (!worst || worst.rate.interval === null || worst.rate.count === 0)
    return 'A dot is the share NO-GO of those tested; nothing was NO-GO here.'
  const line = `The line through a dot holds the true rate with 95\u00a0% confidence: for ${titleOf(0)} ${formatShares(worst.rate.interval)}.`
  const { low } = worst.rate.interval
  const rivals = inOrder.slice(1).filter(({ rate }) => rate.n >= FEW && rate.interval && rate.interval.high >= low)
  if (inOrder.length === 1) return line
  if (rivals.length === 0) return `${line} No other line reaches as far, so it does fail most.`
  return `${line} ${capital(countedInWords(rivals.length, 'other line'))} ${plural(rivals.length, 'reaches', 'reach')} as far; which of these ${inWords(rivals.length + 1)} fails most is not settled by so many tests.`
}

/** One measure of a unit beside the other units: whether it differs, and the counts. */
export const formatRest = (rest: Measure['rest']): string => {
  if (rest === null) return ''
  const others = `other units ${ofAll(rest.noGo, rest.tested)}`
  if (rest.verdict === 'not-shown') return `no difference shown (${others})`
  return `${rest.verdict} than elsewhere (${others}), by ${formatShares(positive(rest.interval))}`
}

const positive = ({ low, high }: { low: number; high: number }) =>
  high <= 0 ? { low: -high, high: -low } : { low, high }

/** A unit beside the others, over all measures; '' where no unit is chosen. */
export const formatDifferences = (measures: readonly Pick<Measure, 'rest'>[], unit: string): string => {
  const compared = measures.filter(({ rest }) => rest !== null)
  if (unit === '' || compared.length === 0) return ''
  const higher = compared.filter(({ rest }) => rest?.verdict === 'higher').length
  const lower = compared.filter(({ rest }) => rest?.verdict === 'lower').length
  if (higher + lower === 0)
    return `${unit} differs from the other units on none of them by more than chance would make it.`
  const parts = [
    higher > 0 ? `more often on ${inWords(higher)}` : '',
    lower > 0 ? `less often on ${inWords(lower)}` : '',
  ]
  return `${unit} fails ${parts.filter(Boolean).join(' and ')} of ${countedInWords(compared.length, 'measure')} than the other units; on the rest no difference is shown.`
}
