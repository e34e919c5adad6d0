import type { JudgedCredit } from '#contract/findings/credit.ts'
import type { SponsorFindings } from '#contract/findings/findings.ts'
import { FEW } from '../../domain/findings/failing-order.ts'
import { ofAll } from '../../words/of-all.ts'
import { capital, counted, figure, inWords, plural } from '../../words/say-number.ts'
import { sayShare } from '../../words/say-share.ts'

type Sponsor = SponsorFindings['items'][number]

const differing = (sponsors: readonly { all: JudgedCredit }[], at?: 0.998): number =>
  sponsors.filter(({ all: { funnel } }) => funnel?.verdict === 'differs' && (!at || funnel.differsAt === at)).length

/** Whether a sponsor's result lies outside what chance allows. */
export const differs = ({ all }: { all: JudgedCredit }): boolean => all.funnel?.verdict === 'differs'

/** Sponsors as the list has them: those who differ first, then by name; never in an order of merit. */
export const sponsorsInOrder = (sponsors: readonly Sponsor[]): Sponsor[] =>
  [...sponsors].sort((a, b) => Number(differs(b)) - Number(differs(a)) || a.name.localeCompare(b.name, 'en'))

/** The answer on sponsors: how many differ from the common rate by more than chance would make it. Nobody is ranked. */
export const saySponsors = (sponsors: readonly { all: JudgedCredit }[], unit: number | null): string => {
  const all = sponsors.length
  if (all === 0 || unit === null) return 'No attempt with a sponsor counts for these filters yet.'
  const rate = `the unit’s ${sayShare(unit)} GO`
  const differ = differing(sponsors)
  if (all === 1) return `The one sponsor here ${differ ? 'differs' : 'does not differ'} from ${rate}.`
  if (differ === 0) return `None of ${figure(all)} sponsors differs from ${rate} by more than chance would make it.`
  return `${capital(inWords(differ))} of ${figure(all)} sponsors ${plural(differ, 'lies', 'lie')} outside what chance allows around ${rate}.`
}

/** How many would lie outside by chance alone, how many are far out, and whose attempts are too few. */
export const saySponsorsWhy = (sponsors: readonly { attempts: number; all: JudgedCredit }[]): string => {
  if (sponsors.length === 0) return 'Choose a longer period or another unit.'
  const byChance = Math.floor(sponsors.length * 0.05)
  const far = differing(sponsors, 0.998)
  const few = sponsors.filter(({ attempts }) => attempts < FEW).length
  return (
    [
      byChance > 0
        ? `Among so many sponsors up to ${inWords(byChance)} would lie outside the 95\u00a0% lines by chance alone; ${far === 0 ? 'nobody lies' : `${inWords(far)} ${plural(far, 'lies', 'lie')}`} outside the 99.8\u00a0% lines.`
        : '',
      few > 0
        ? `${figure(few)} ${plural(few, 'has', 'have')} fewer than five attempts, which says little about anyone.`
        : '',
    ]
      .filter(Boolean)
      .join(' ') || 'A sponsor inside the lines can’t be told from the rest.'
  )
}

/** What the funnel shows and what it does not. */
export const sayFunnel = (unit: { count: number; n: number; rate: number | null }): string =>
  unit.rate === null
    ? 'Without attempts there is nothing to hold anybody against.'
    : `All together were GO in ${ofAll(unit.count, unit.n)} attempts. The fewer attempts, the farther chance alone moves a dot, so the lines open to the left. A dot outside says that the result is unusual, not why: candidates and standards differ as well as coaching, which the comparison with the expected passes in the list allows for in part.`

/** One sponsor beside the unit, in words: "with 6 attempts this can’t be told from the unit’s 71 %". */
export const sayOneSponsor = ({ all: { funnel, rate } }: { all: JudgedCredit }): string => {
  if (funnel === null) return 'nothing to hold it against'
  const unit = `the unit’s ${sayShare(funnel.target)}`
  if (funnel.verdict === 'differs') {
    const how = funnel.side === 'above' ? 'above' : 'below'
    return `${how} ${unit}, ${funnel.differsAt === 0.998 ? 'far ' : ''}outside what chance allows`
  }
  return `with ${counted(rate.n, 'attempt')} this can’t be told from ${unit}`
}

/** Observed passes beside those expected of the same kinds of attempts: "9 where 8.0 are expected, 4 to 12 usual". */
export const sayExpected = ({ against, notComparable }: Pick<Sponsor, 'against' | 'notComparable'>): string => {
  const alone =
    notComparable.attempts > 0 ? `${counted(notComparable.attempts, 'attempt')} of a kind nobody else has` : ''
  if (against === null) return alone || 'nothing to compare with'
  const { observed, expected, usual, verdict } = against
  const differs = verdict === 'differs' ? ': differs' : ''
  const words = `${figure(observed)} where ${expected.toFixed(1)} are expected (${figure(usual.low)} to ${figure(usual.high)} usual)${differs}`
  return alone ? `${words}; besides ${alone}` : words
}

/** The rate drawn toward that of all: "59 %, 43 to 74 %", or why there is none. */
export const sayShrunk = ({ kind, rate, interval, reason }: JudgedCredit['shrunk']): string => {
  if (kind === 'not-estimated' || rate === null) return WHY_NOT[reason ?? 'no-data']
  const spread = interval ? `, ${Math.round(interval.low * 100)} to ${Math.round(interval.high * 100)}\u00a0%` : ''
  return `${sayShare(rate)}${spread}`
}

const WHY_NOT: Record<NonNullable<JudgedCredit['shrunk']['reason']>, string> = {
  'no-data': 'no attempts',
  'one-group': 'nobody else to learn from',
  'all-passed': 'everybody passed',
  'none-passed': 'nobody passed',
  'single-attempts': 'only single attempts',
  'all-or-nothing': 'all or nothing everywhere',
}
