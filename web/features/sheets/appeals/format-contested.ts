import { capital, inWords, plural } from '../../../words/format-number.ts'

/** The answer of the page: what waits for a second person. */
export const formatContested = (amendments: number, appeals: number): string => {
  if (amendments + appeals === 0) return 'Nothing waits for a second person.'
  const parts = [
    amendments > 0 ? `${inWords(amendments)} ${plural(amendments, 'amendment', 'amendments')}` : '',
    appeals > 0 ? `${inWords(appeals)} ${plural(appeals, 'appeal', 'appeals')}` : '',
  ].filter(Boolean)
  return `${capital(parts.join(' and '))} ${amendments + appeals === 1 ? 'waits' : 'wait'} for a second person.`
}

/** "NO-GO becomes GO". */
export const formatOutcomeChange = (before: string, after: string): string =>
  before === after ? `stays ${after}` : `${before} becomes ${after}`
