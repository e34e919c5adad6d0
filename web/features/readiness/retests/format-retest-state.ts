import { daysBetween } from '#calendar/plain-date.ts'
import type { Retest } from '#contract/standards/certifications.ts'
import { counted } from '../../../words/format-number.ts'

/** Where one retest stands on a day: "12 days past due, review first", "open", "opens in 3 days". */
export const formatRetestState = (retest: Retest, asOf: string): string => {
  const parts: string[] = []
  if (retest.pastDue) parts.push(`${counted(daysBetween(retest.due, asOf), 'day')} past due`)
  else if (retest.earliest > asOf) parts.push(`opens in ${counted(daysBetween(asOf, retest.earliest), 'day')}`)
  else parts.push('open')
  if (retest.needsReview) parts.push(`review first: ${counted(retest.noGosInARow, 'NO-GO')} in a row`)
  return parts.join(', ')
}
