import type { TestDayLine } from '#contract/test-days/running-tests.ts'
import { capital, countedInWords, inWords } from '../../words/format-number.ts'

const some = (count: number): string => (count === 0 ? 'none' : inWords(count))

/** The answer of the line: how many run, how many are through, who is still to come. */
export const formatLine = ({ bookings, running, closed }: TestDayLine): string => {
  if (bookings.length === 0 && running.length === 0 && closed.length === 0) return 'Nobody is on the line yet.'
  const waiting = bookings.filter(({ state }) => state === 'checked in').length
  const toCome = bookings.filter(({ state }) => state === 'booked').length
  const runs = running.length === 0 ? 'Nothing runs now' : `${capital(countedInWords(running.length, 'test'))} running`
  return `${runs}; ${some(closed.length)} closed, ${some(waiting)} checked in, ${some(toCome)} still to come.`
}
