import { addMonths } from '#calendar/add-months.ts'
import { addDays } from '#calendar/plain-date.ts'
import type { CertificationBody } from '#contract/standards/certifications.ts'
import { formatDayInFull } from '../../words/format-day.ts'
import { inWords } from '../../words/format-number.ts'

type Terms = Pick<
  CertificationBody,
  'standards' | 'windowDays' | 'validityMonths' | 'waitDays' | 'dueDays' | 'reviewAfter' | 'sequence'
> &
  Partial<Pick<CertificationBody, 'approval' | 'extensionDays'>>

const SIGNED = {
  none: '',
  required: ', from the day a commander signs it',
  'required-from-award': ', once a commander has signed it',
} as const

/**
 * What terms mean for somebody tested on a day, sentence by sentence, with the days that come of them: "A NO-GO on 3 March may
 * be retested from 10 March and is due by 2 April." In: the day of the test, and today, which says whether a year is needed.
 */
export function formatMeaning(terms: Terms, on: string, today: string): string[] {
  const { standards, windowDays, validityMonths, waitDays, dueDays, reviewAfter, sequence } = terms
  const { approval = 'none', extensionDays = 0 } = terms
  const day = (date: string) => formatDayInFull(date, today)
  const lastDay = addMonths(on, validityMonths)
  const after = (days: number) => day(addDays(on, days))
  const from = waitDays === 0 ? 'the same day' : after(waitDays)
  return [
    `${standards.length > 1 ? 'The last GO that is needed' : 'A GO'} on ${day(on)} certifies through ${day(lastDay)}${SIGNED[approval]}.`,
    ...(extensionDays > 0
      ? [`A commander may extend that to ${day(addDays(lastDay, extensionDays))} at the latest.`]
      : []),
    ...(standards.length > 1
      ? [
          `Any other GO on ${day(on)} counts toward it until ${after(windowDays)}${sequence === 'in-order' ? ', and only once those before it are passed' : ''}.`,
        ]
      : []),
    dueDays < waitDays
      ? `A NO-GO on ${day(on)} would be due by ${after(dueDays)}, before it may be retested, which is from ${from}: the days to wait are too many, or those in which it is due too few.`
      : `A NO-GO on ${day(on)} may be retested from ${from} and is due by ${after(dueDays)}.`,
    reviewAfter === 1
      ? 'After each NO-GO a review comes before the retest.'
      : `After ${inWords(reviewAfter)} NO-GOs in a row a review comes before the next retest.`,
  ]
}

/** Whether each number of the terms is one that can be meant, so that days can be told from them. */
export const canBeMeant = ({ windowDays, validityMonths, waitDays, dueDays, reviewAfter }: Terms): boolean =>
  [windowDays, validityMonths, reviewAfter].every((count) => count >= 1 && count <= 3660) &&
  [waitDays, dueDays].every((count) => count >= 0 && count <= 3660)
