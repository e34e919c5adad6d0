import { requireAction } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import type { MadeBooking, MoveBody } from '../../../contract/test-days/bookings.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { bookingConflicts } from '../../../domain/booking/booking-conflicts.ts'
import { conflict, notFound } from '../../../errors.ts'
import { notifyBooking } from '../../../notices/services/notify-booking.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockBooking, updateBooking } from '../../db/bookings/bookings.db.ts'
import { lockSlots } from '../../db/bookings/slots.db.ts'
import { lockTestDay } from '../../db/test-days.db.ts'
import { refusingDuplicates } from './add-booking.ts'
import { gatherProspects } from './gather-prospects.ts'
import { placeOf } from './place-of.ts'
import { dayCalledOff, requireAnotherThanSecond, requireFreeSlot, requireUnrefused } from './require-bookable.ts'

/** Moves a booking that is still to come to another slot, or out of any on this or another test day. */
export async function moveBooking(context: Context, actor: Actor, id: string, body: MoveBody): Promise<MadeBooking> {
  requireAction(actor, 'plan-test-days')
  return refusingDuplicates(() =>
    recorded(context, actor, async (tx, note) => {
      const now = context.clock()
      const day = await lockTestDay(tx, body.testDayId)
      if (!day) throw notFound('test day')
      if (day.calledOff) throw dayCalledOff()
      const booking = await lockBooking(tx, id)
      if (!booking) throw notFound('booking')
      if (booking.state !== 'booked') {
        throw conflict('not-booked', `This booking is ${booking.state}; only one that is still to come can be moved.`)
      }
      const slot = body.slotId === null ? null : requireFreeSlot((await lockSlots(tx, [body.slotId]))[0], now, id)
      if (slot && slot.testDayId !== body.testDayId) throw notFound('slot')
      const { candidateId, standard } = booking
      const graderId = slot?.graderId ?? null
      requireAnotherThanSecond(booking.secondGraderId, graderId)
      const catalogue = await context.catalogue.current(tx)
      const wanted = { candidateId, standard, movedId: id }
      const graders = graderId === null ? [] : [graderId]
      const [prospect] = await gatherProspects(tx, catalogue, [wanted], { from: day.on, graderIds: graders, now })
      const place = slot ? placeOf(slot) : { testDayId: body.testDayId, day: day.on, time: null, graderId }
      const conflicts = bookingConflicts(prospect!)(place)
      requireUnrefused(conflicts)
      const { testDayId, slotId } = body
      await updateBooking(tx, id, { testDayId, slotId, graderId, startsAt: slot?.startsAt ?? null })
      const graderIds = [booking.graderId, graderId]
      const told = { candidateId, standard, testDayId, day: day.on, startsAt: slot?.startsAt ?? null, graderIds }
      await notifyBooking(tx, now, actor, 'moved', told)
      note({
        action: 'booking.moved',
        subject: { kind: 'soldier', id: candidateId },
        before: { bookingId: id, testDayId: booking.testDayId, slotId: booking.slotId },
        after: { bookingId: id, testDayId, slotId },
        ...(body.reason === null ? {} : { reason: body.reason }),
      })
      return { id, conflicts }
    }),
  )
}
