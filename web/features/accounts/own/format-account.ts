import { capital, countedInWords } from '../../../words/format-number.ts'

/** The answer on one's own account. In: how many sessions there are, this one with them. */
export const formatSessions = (count: number): string => {
  const others = count - 1
  return others <= 0
    ? 'You are signed in here and nowhere else.'
    : `You are signed in here and in ${countedInWords(others, 'other place')}.`
}

/** What became of the other sessions with a change of password. */
export const formatPasswordChanged = (ended: number): string =>
  ended === 0
    ? 'The password is changed. No other session was open.'
    : `The password is changed. ${capital(countedInWords(ended, 'other session'))} ${ended === 1 ? 'was' : 'were'} ended.`
