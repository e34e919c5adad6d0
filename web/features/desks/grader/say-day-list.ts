import type { ListedBooking } from '#contract/test-days/day-list.ts'
import type { Deed } from '../../../device/store/deed.ts'
import type { KeptSheet } from '../../../device/store/kept-sheet.ts'
import { capital, countedInWords, plural } from '../../../words/say-number.ts'

/** What a booking is for its grader now. */
export type Turn = 'to come' | 'under way' | 'closed' | 'over'

const OVER = new Set(['tested', 'no-show', 'excused', 'turned away'])

/** How a booking stands: by its sheet on this device, else by what the server said when the list came down. */
export const turnOf = (booking: ListedBooking, sheets: readonly KeptSheet[]): Turn => {
  const own = sheets.filter(
    ({ id, sheet }) =>
      id === booking.id ||
      (sheet.head.testDayId === booking.testDayId &&
        sheet.head.candidate.id === booking.candidate.id &&
        sheet.head.standard === booking.standard &&
        (sheet.head.secondOf !== null) === booking.asSecond),
  )
  if (own.some(({ state }) => state === 'running')) return 'under way'
  if (own.some(({ sheet }) => sheet.void === null)) return 'closed'
  return OVER.has(booking.state) ? 'over' : 'to come'
}

/** A booking as it stands with what was done about it on this device and not sent yet. */
export const withDeed = (booking: ListedBooking, deeds: readonly Deed[]): ListedBooking => {
  const own = deeds.find(({ id, state }) => id === booking.id && state === 'waiting')
  return own?.kind === 'mark' ? { ...booking, state: own.mark.state, checkIn: own.mark.found } : booking
}

/** The answer of the desk: how many are still to be tested today. */
export const sayToday = (turns: readonly Turn[]): string => {
  const count = (turn: Turn) => turns.filter((one) => one === turn).length
  const left = count('to come') + count('under way')
  if (turns.length === 0) return 'Nobody is booked with you today.'
  if (left === 0)
    return `${capital(countedInWords(turns.length, 'candidate'))} ${plural(turns.length, 'was', 'were')} booked with you today; all are through.`
  const rest = turns.length - left
  return `${capital(countedInWords(left, 'candidate'))} to test today${rest === 0 ? '' : `; ${countedInWords(rest, 'is', 'are')} through`}.`
}
