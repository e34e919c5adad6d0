import type { TimeToCertify } from '#contract/findings/time-to-certify.ts'
import type { LevelWords } from '../../domain/soldiers/levels.ts'
import { capital, counted, countedInWords, figure, inWords, listed, plural } from '../../words/format-number.ts'
import { formatShare } from '../../words/format-share.ts'

type Times = TimeToCertify['items'][number]
type Curve = Times['all']

const days = (count: number): string => `${figure(Math.round(count))} ${plural(Math.round(count), 'day')}`

export const formatStart = (start: TimeToCertify['start']): string =>
  start === 'first-attempt' ? 'after the first attempt' : 'after the first day with a sponsor'

/** The answer: days until half are certified. */
export const formatTime = (all: Curve | undefined, certification: string, start: TimeToCertify['start']): string => {
  if (!all || all.soldiers === 0) return 'Nobody began training for a certification within these filters.'
  if (all.median === null)
    return `Fewer than half of ${counted(all.soldiers, 'soldier')} are certified for ${certification} yet: ${figure(all.certified)} so far${all.left > 0 ? `, ${figure(all.left)} left` : ''}.`
  if (all.median === 0)
    return start === 'first-attempt'
      ? `Half or more are certified for ${certification} with their first attempt.`
      : `Half or more are certified for ${certification} on their first day with a sponsor.`
  return `Half are certified for ${certification} within ${days(all.median)} ${formatStart(start)}.`
}

/** The median's interval in words; ends that are open are said to be. */
export const formatMedianInterval = ({ low, high }: Curve['medianInterval']): string => {
  if (low === null && high === null) return 'not known yet'
  if (high === null) return `${days(low ?? 0)} or more, no upper end yet`
  if (low === null) return `up to ${days(high)}`
  return `${figure(Math.round(low))} to ${days(high)}`
}

/** How sure that is, and who is counted how. */
export const formatTimeWhy = (all: Curve | undefined): string => {
  if (!all || all.soldiers === 0) return 'Choose a longer period, another unit or certification.'
  const sure =
    all.median === null
      ? ''
      : `With 95\u00a0% confidence the middle lies at ${formatMedianInterval(all.medianInterval)}. `
  const rest = [
    all.waiting > 0 ? `${inWords(all.waiting)} still ${plural(all.waiting, 'waits', 'wait')}` : '',
    all.left > 0 ? `${inWords(all.left)} left uncertified` : '',
  ].filter(Boolean)
  const seen = all.waiting + all.left
  if (seen === 0) return `${sure}All ${inWords(all.soldiers)} were certified in the end.`
  const waits = all.waiting > 0 ? ` Who waits counts for as long as seen; who left is not certified any more.` : ''
  return `${sure}Of ${figure(all.soldiers)} soldiers ${listed(rest)}.${waits}`
}

/** Tests it took, in words. */
export const formatTests = ({ tests, soldiers }: Pick<Curve, 'tests' | 'soldiers'>): string =>
  soldiers === 0
    ? ''
    : tests.median === null
      ? 'fewer than half are certified yet'
      : `half are certified with ${counted(Math.round(tests.median), 'test')} or fewer; passing each required standard at once is the least`

/** The companies, or whatever the unit calls them, beside each other, by the log-rank test. */
export const formatCompanies = (
  { comparison, companies }: Pick<Times, 'comparison' | 'companies'>,
  { many }: LevelWords,
): string => {
  const p = comparison.p === null ? '' : `p\u00a0${comparison.p < 0.001 ? '< 0.001' : `= ${comparison.p.toFixed(2)}`}`
  if (comparison.verdict === 'differ')
    return `The ${many} differ by more than chance would make them (log-rank test, ${p}).`
  if (comparison.verdict === 'not-shown')
    return `No difference between the ${inWords(companies.length)} ${many} is shown (log-rank test, ${p}); that does not prove them alike.`
  if (comparison.reason === 'too-many-groups')
    return `${capital(countedInWords(companies.length, many, many))} are too many for one test: choose a unit above fewer of them.`
  return comparison.reason === 'no-events'
    ? `The ${many} are not compared: nobody is certified yet.`
    : `The ${many} are not compared: fewer than two have soldiers in training.`
}

/** How the interval was made, in words; statisticians ask for it. */
const TRANSFORMATIONS: Record<TimeToCertify['transformation'], string> = {
  log: 'on the scale of the logarithm of the share not certified',
  'log-log': 'on the log-log scale of the share not certified, which keeps them between none and all',
}

/** What the curve shows and what it does not. */
export const formatCurve = (all: Curve, transformation: TimeToCertify['transformation']): string => {
  const last = all.points.at(-1)
  const end = last
    ? ` After ${countedInWords(last.day, 'day')} ${formatShare(1 - last.uncertified)} are certified.`
    : ''
  const tail = last && last.atRisk < 10 ? ' To the right so few are left that the curve says little.' : ''
  return `The curve climbs with each soldier certified; who left can no longer be (Aalen-Johansen).${end}${tail} Intervals are reckoned ${TRANSFORMATIONS[transformation]}. Not in it are renewals, and it does not say what makes some slower.`
}

/** Who is not in the curve. */
export const formatLeftOut = ({ certifiedBefore }: Times['leftOut']): string =>
  certifiedBefore === 0
    ? ''
    : `${capital(inWords(certifiedBefore))} ${plural(certifiedBefore, 'soldier', 'soldiers')} who held the certification already ${plural(certifiedBefore, 'is', 'are')} left out: a renewal is no first certification.`
