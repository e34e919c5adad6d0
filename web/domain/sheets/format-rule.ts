import type { Violation } from '#contract/sheets/sheets.ts'
import { formatDay } from '../../words/format-day.ts'

/** These name certifications and standards by code. */
const WITH_CODES: readonly Violation['rule'][] = ['too-early', 'review-missing', 'out-of-sequence']
const CODE = /(?<=(?:[Ff]or|first:|,) )[\w-]+(?:\.[\w-]+)*/g

/**
 * A condition of a valid test that was not met, in the words of the server, with dates as people say them and titles for codes.
 * In: the title under a code, or the code while it is not known, which is then said in its words.
 */
export const formatViolation = (
  { rule, detail }: Pick<Violation, 'rule' | 'detail'>,
  today: string,
  titleOf: (code: string) => string,
): string => {
  const inWords = (code: string) => {
    const title = titleOf(code)
    return title === code ? code.replace(/[-._]/g, ' ') : title
  }
  const named = WITH_CODES.includes(rule) ? detail.replace(CODE, inWords) : detail
  return named.replace(/\b\d{4}-\d{2}-\d{2}\b/g, (day) => formatDay(day, today))
}
