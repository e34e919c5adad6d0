import { isDeepStrictEqual } from 'node:util'
import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { BookingMarkBody } from '../../../contract/test-days/bookings.ts'
import type { BookingState } from '../../../contract/test-days/test-days.ts'
import { isDuplicate } from '../../../db/database-errors.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { can } from '../../../domain/access/permissions.ts'
import { conflict, notFound } from '../../../errors.ts'
import { notifyBooking } from '../../../notices/services/notify-booking.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { type LockedBooking, lockBooking, updateBooking } from '../../db/bookings/bookings.db.ts'

/** Cancels a booking; the slot is free again. */
export async function cancelBooking(context: Context, actor: Actor, id: string, reason: string) {
  requireAction(actor, 'plan-test-days')
  return setState(context, actor, id, { state: 'cancelled', reason, found: null })
}

/**
 * Marks how a booking went: there and what was found, tested, not there, excused, turned away; or takes such a mark back.
 * The office marks any; a grader those they grade, from their day on, and never as tested, which the sheet says.
 */
export async function markBooking(context: Context, actor: Actor, id: string, mark: BookingMarkBody) {
  requireAction(actor, 'run-test-days')
  return setState(context, actor, id, mark)
}

async function setState(
  context: Context,
  actor: Actor,
  id: string,
  { state, reason, found }: Omit<BookingMarkBody, 'state'> & { state: BookingState },
): Promise<{ id: string }> {
  const { today } = await scopeFor(context, actor)
  try {
    return await recorded(context, actor, async (tx, note) => {
      const booking = await lockBooking(tx, id)
      if (!booking) throw notFound('booking')
      if (!can(actor, 'plan-test-days')) requireOwn(actor, booking, state, today)
      const checkIn = found ?? (state === 'booked' ? null : booking.checkIn)
      if (booking.state === state && isDeepStrictEqual(checkIn, booking.checkIn)) return { id }
      if (booking.state === 'cancelled') {
        throw conflict('booking-cancelled', 'This booking was cancelled. Book the candidate anew.')
      }
      if (booking.sheetId !== null) {
        const detail = 'A sheet of this test is stored, which says how it went. Amend the sheet if it is wrong.'
        throw conflict('booking-has-sheet', detail)
      }
      await updateBooking(tx, id, { state, checkIn, stateReason: state === 'booked' ? null : reason })
      if (state === 'cancelled') {
        const told = { ...booking, graderIds: [booking.graderId] }
        await notifyBooking(tx, context.clock(), actor, 'cancelled', told)
      }
      note({
        action: state === 'cancelled' ? 'booking.cancelled' : 'booking.marked',
        subject: { kind: 'soldier', id: booking.candidateId },
        before: { bookingId: id, state: booking.state, checkIn: booking.checkIn },
        after: { bookingId: id, state, checkIn },
        ...(reason === null ? {} : { reason }),
      })
      return { id }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw conflict('slot-taken', 'Somebody else is booked in the slot by now.')
  }
}

function requireOwn(actor: Actor, booking: LockedBooking, state: BookingState, today: string): void {
  const isOwn = actor.soldierId !== null && [booking.graderId, booking.secondGraderId].includes(actor.soldierId)
  if (!isOwn) throw notFound('booking')
  if (state === 'tested') {
    throw conflict('sheet-says-so', 'That somebody was tested is said by the sheet. Grade it, or enter it from paper.')
  }
  if (booking.day > today) {
    throw conflict('day-to-come', 'This test day is still to come; the training office can change the booking.')
  }
}
