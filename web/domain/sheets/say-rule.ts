import type { Violation } from '#contract/sheets/sheets.ts'
import { sayDay } from '../../words/say-day.ts'

/** These name certifications and standards by code. */
const WITH_CODES: readonly Violation['rule'][] = ['too-early', 'review-missing', 'out-of-sequence']
const CODE = /(?<=(?:[Ff]or|first:|,) )[\w-]+/g

/**
 * A condition of a valid test that was not met, in the words of the server, with dates as people say them and titles for codes.
 * In: what is known under a code; left out: codes stay.
 */
export const sayViolation = (
  { rule, detail }: Pick<Violation, 'rule' | 'detail'>,
  today: string,
  titleOf: (code: string) => string = (code) => code,
): string => {
  const named = WITH_CODES.includes(rule) ? detail.replace(CODE, titleOf) : detail
  return named.replace(/\b\d{4}-\d{2}-\d{2}\b/g, (day) => sayDay(day, today))
}
