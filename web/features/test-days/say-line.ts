import type { TestDayLine } from '#contract/running-tests.ts'
import { capital, countedInWords, inWords, plural } from '../../words/say-number.ts'

/** The answer of the line: how many run, how many are through, who is still to come. */
export const sayLine = ({ bookings, running, closed }: TestDayLine): string => {
  const waiting = bookings.filter(({ state }) => state === 'checked in').length
  const toCome = bookings.filter(({ state }) => state === 'booked').length
  const runs = running.length === 0 ? 'Nothing runs now' : `${capital(countedInWords(running.length, 'test'))} running`
  return `${runs}; ${inWords(closed.length)} closed, ${inWords(waiting)} checked in, ${inWords(toCome)} ${plural(toCome, 'is', 'are')} not here yet.`
}
