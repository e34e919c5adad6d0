import type { BookingMarkBody } from '../../contract/bookings.ts'
import type { BookingState } from '../../contract/test-days.ts'
import { lockBooking, updateBooking } from '../../db/bookings.db.ts'
import { isDuplicate } from '../../db/database-errors.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict, notFound } from '../../errors.ts'
import { requireAction } from '../access/require.ts'
import type { Context } from '../context.ts'
import { tellBooking } from '../notices/tell-booking.ts'
import { recorded } from '../record/recorded.ts'

/** Cancels a booking; the slot is free again. */
export async function cancelBooking(context: Context, actor: Actor, id: string, reason: string) {
  return setState(context, actor, id, 'cancelled', reason)
}

/** Marks how a booking went: there, tested, not there, excused, turned away; or takes such a mark back. */
export async function markBooking(context: Context, actor: Actor, id: string, { state, reason }: BookingMarkBody) {
  return setState(context, actor, id, state, reason)
}

async function setState(
  context: Context,
  actor: Actor,
  id: string,
  state: BookingState,
  reason: string | null,
): Promise<{ id: string }> {
  requireAction(actor, 'plan-test-days')
  try {
    return await recorded(context, actor, async (tx, note) => {
      const booking = await lockBooking(tx, id)
      if (!booking) throw notFound('booking')
      if (booking.state === state) return { id }
      if (booking.state === 'cancelled') {
        throw conflict('booking-cancelled', 'This booking was cancelled. Book the candidate anew.')
      }
      if (booking.sheetId !== null) {
        const detail = 'A sheet of this test is stored, which says how it went. Amend the sheet if it is wrong.'
        throw conflict('booking-has-sheet', detail)
      }
      await updateBooking(tx, id, { state, stateReason: state === 'booked' ? null : reason })
      if (state === 'cancelled') {
        const told = { ...booking, graderIds: [booking.graderId] }
        await tellBooking(tx, context.clock(), actor, 'cancelled', told)
      }
      note({
        action: state === 'cancelled' ? 'booking.cancelled' : 'booking.marked',
        subject: { kind: 'soldier', id: booking.candidateId },
        before: { bookingId: id, state: booking.state },
        after: { bookingId: id, state },
        ...(reason === null ? {} : { reason }),
      })
      return { id }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw conflict('slot-taken', 'Somebody else is booked in the slot by now.')
  }
}
