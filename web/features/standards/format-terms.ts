import type { Certification } from '#contract/standards/certifications.ts'
import { counted, inWords, listed } from '../../words/format-number.ts'

/** Terms in a sentence or two. */
export const formatTerms = (terms: Certification, unitName: (id: string) => string): string => {
  const { validityMonths, windowDays, waitDays, dueDays, reviewAfter, sequence, requiredOf } = terms
  const who = [
    ...(requiredOf?.grades ? [requiredOf.grades.join(', ')] : []),
    ...(requiredOf?.units ? [requiredOf.units.map(unitName).join('; ')] : []),
  ]
  return [
    `Valid ${counted(validityMonths, 'month')}; all within ${counted(windowDays, 'day')}${sequence === 'in-order' ? ', in order' : ''};`,
    `retest after ${counted(waitDays, 'day')}, by ${counted(dueDays, 'day')}; review after ${inWords(reviewAfter)} NO-GO in a row.`,
    who.length === 0 ? 'Required of everybody whom it fits.' : `Required of ${listed(who)}.`,
  ].join(' ')
}
