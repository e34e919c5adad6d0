import { requireAction } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { bookingConflicts } from '../../../domain/booking/booking-conflicts.ts'
import type { BookingConflict } from '../../../domain/booking/types.ts'
import { conflict, notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockBooking } from '../../db/bookings/bookings.db.ts'
import { lockSlots, updateSlotGrader } from '../../db/bookings/slots.db.ts'
import { lockTestDay } from '../../db/test-days.db.ts'
import { refusingOverlaps, requireFreeGraders, requireGraders } from '../slots.ts'
import { zoneOfUnit } from '../zone-of.ts'
import { gatherProspects } from './gather-prospects.ts'
import { placeOf } from './place-of.ts'
import { dayCalledOff, requireAnotherThanSecond, requireUnrefused } from './require-bookable.ts'

/** Says who grades in a slot, and so the booking in it. Out: what stands in the way of that booking with this grader. */
export async function changeSlotGrader(
  context: Context,
  actor: Actor,
  id: string,
  graderId: string | null,
): Promise<{ id: string; conflicts: BookingConflict[] }> {
  requireAction(actor, 'plan-test-days')
  return refusingOverlaps(() =>
    recorded(context, actor, async (tx, note) => {
      const [slot] = await lockSlots(tx, [id])
      if (!slot) throw notFound('slot')
      if (slot.calledOff) throw dayCalledOff()
      if (graderId !== null) {
        await requireGraders(tx, [graderId], '/graderId')
        const { unitId } = (await lockTestDay(tx, slot.testDayId))!
        await requireFreeGraders(tx, [{ ...slot, graderId }], await zoneOfUnit(context, tx, unitId), id)
      }
      const booking = slot.bookingId === null ? null : await lockBooking(tx, slot.bookingId)
      if (booking?.state === 'tested') {
        throw conflict('slot-over', 'The test in this slot is over; its sheet says who graded.')
      }
      let conflicts: BookingConflict[] = []
      if (booking) {
        requireAnotherThanSecond(booking.secondGraderId, graderId)
        const wanted = { candidateId: booking.candidateId, standard: booking.standard, movedId: booking.id }
        const catalogue = await context.catalogue.current(tx)
        const horizon = { from: slot.day, graderIds: graderId === null ? [] : [graderId], now: context.clock() }
        const [prospect] = await gatherProspects(tx, catalogue, [wanted], horizon)
        conflicts = bookingConflicts(prospect!)({ ...placeOf(slot), graderId })
        requireUnrefused(conflicts)
      }
      await updateSlotGrader(tx, id, graderId)
      const subject = { kind: 'test day', id: slot.testDayId }
      const before = { slotId: id, graderId: slot.graderId }
      note({ action: 'slot.grader-changed', subject, before, after: { slotId: id, graderId } })
      return { id, conflicts }
    }),
  )
}
