import type { Certification } from '#contract/standards/certifications.ts'
import { counted, inWords, listed } from '../../words/format-number.ts'

const SIGNED = {
  required: 'Waits for a commander’s signature and is in force from the day of signing.',
  'required-from-award': 'Waits for a commander’s signature and is then in force from the day of the last test.',
} as const

/** Terms in a few sentences. */
export const formatTerms = (terms: Certification, unitName: (id: string) => string): string => {
  const { validityMonths, windowDays, waitDays, dueDays, reviewAfter, sequence } = terms
  const { approval, extensionDays, requiredOf } = terms
  const who = [
    ...(requiredOf?.grades ? [requiredOf.grades.join(', ')] : []),
    ...(requiredOf?.units ? [requiredOf.units.map(unitName).join('; ')] : []),
  ]
  return [
    `Valid ${counted(validityMonths, 'month')}; all within ${counted(windowDays, 'day')}${sequence === 'in-order' ? ', in order' : ''};`,
    `retest after ${counted(waitDays, 'day')}, by ${counted(dueDays, 'day')}; review after ${inWords(reviewAfter)} NO-GO in a row.`,
    ...(approval === 'none' ? [] : [SIGNED[approval]]),
    ...(extensionDays === 0 ? [] : [`A commander may extend it by ${counted(extensionDays, 'day')}.`]),
    who.length === 0 ? 'Required of everybody whom it fits.' : `Required of ${listed(who)}.`,
  ].join(' ')
}
