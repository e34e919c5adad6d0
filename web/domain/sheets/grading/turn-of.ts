import type { BookingMarkBody } from '#contract/test-days/bookings.ts'
import type { ListedBooking } from '#contract/test-days/day-list.ts'
import type { RunningSheet } from './running-sheet.ts'

/** What a booking is for its grader now. */
export type Turn = 'to come' | 'under way' | 'closed' | 'over'

interface SheetHere {
  readonly id: string
  readonly state: 'running' | 'waiting' | 'refused' | 'stored'
  readonly sheet: Pick<RunningSheet, 'head' | 'void'>
}

type PendingActionHere = { readonly id: string; readonly state: string } & (
  | { readonly kind: 'mark'; readonly mark: BookingMarkBody }
  | { readonly kind: 'walk-in' }
)

const OVER = new Set(['tested', 'no-show', 'excused', 'turned away'])

/** How a booking stands: by its sheet on this device, else by what the server said when the list came down. */
export const turnOf = (booking: ListedBooking, sheets: readonly SheetHere[]): Turn => {
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
export const withPendingAction = (
  booking: ListedBooking,
  pendingActions: readonly PendingActionHere[],
): ListedBooking => {
  const own = pendingActions.find(({ id, state }) => id === booking.id && state === 'waiting')
  return own?.kind === 'mark' ? { ...booking, state: own.mark.state, checkIn: own.mark.found } : booking
}

/** Whose turn comes next on a day: the first booking to come after the one given, else the first of all; those checked in before the others. */
export const nextBooking = (
  bookings: readonly ListedBooking[],
  sheets: readonly SheetHere[],
  on: string,
  after: string | null,
): ListedBooking | undefined => {
  const toCome = bookings.filter((one) => one.on === on && (one.id === after || turnOf(one, sheets) === 'to come'))
  const start = toCome.findIndex(({ id }) => id === after) + 1
  const inTurn = [...toCome.slice(start), ...toCome.slice(0, start)].filter(({ id }) => id !== after)
  return inTurn.find(({ state }) => state === 'checked in') ?? inTurn[0]
}
