import type { Context } from '../../context/context.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict } from '../../errors.ts'
import { notifyBooking } from '../../notices/services/notify-booking.ts'
import { type Note, recorded } from '../../record/services/recorded.ts'
import { type LockedBooking, lockBooking, updateBooking } from '../../test-days/db/bookings/bookings.db.ts'
import { lockSlots } from '../../test-days/db/bookings/slots.db.ts'
import { refusingDuplicates } from '../../test-days/services/bookings/add-booking.ts'
import { listPlanBookings, markUndone, type PlanBooking } from '../db/plan-bookings.db.ts'
import { lockPlan } from '../db/plans.db.ts'
import { openPlan } from './get-plan.ts'
import { undoManning } from './manning/undo-manning.ts'

const REASON = 'The plan that booked it was undone.'

/**
 * Takes back what was booked by a plan and not changed since: new bookings are cancelled, moved ones go back to the slot
 * they came from where that is free. Out: how many, and how many were changed since and so left.
 */
export async function undoPlan(context: Context, actor: Actor, id: string): Promise<{ undone: number; left: number }> {
  await openPlan(context, actor, id)
  return refusingDuplicates(() =>
    recorded(context, actor, async (tx, note) => {
      const plan = await lockPlan(tx, id)
      if (plan?.kind === 'manning') return undoManning(context, tx, note, actor, id)
      const made = await listPlanBookings(tx, id)
      if (made.length === 0) throw conflict('nothing-to-undo', 'Nothing of this plan was accepted, or all was undone.')
      const unchanged: { was: PlanBooking; booking: LockedBooking }[] = []
      const slotIds = made.flatMap(({ slotId, fromSlotId }) => [slotId, ...(fromSlotId === null ? [] : [fromSlotId])])
      await lockSlots(tx, slotIds)
      for (const was of made) {
        const booking = await lockBooking(tx, was.bookingId)
        const isSame =
          booking?.state === 'booked' && booking.slotId === was.slotId && booking.testDayId === was.testDayId
        if (isSame) unchanged.push({ was, booking })
      }
      for (const { booking } of unchanged) await updateBooking(tx, booking.id, { slotId: null })
      const undone: string[] = []
      for (const one of unchanged) if (await undoBooking(context, tx, note, actor, one)) undone.push(one.was.bookingId)
      await markUndone(tx, id, undone, context.clock())
      note({ action: 'plan.undone', subject: { kind: 'plan', id }, after: { bookings: undone } })
      return { undone: undone.length, left: made.length - undone.length }
    }),
  )
}

async function undoBooking(
  context: Context,
  tx: Transaction,
  note: Note,
  actor: Actor,
  { was, booking }: { was: PlanBooking; booking: LockedBooking },
): Promise<boolean> {
  const now = context.clock()
  const subject = { kind: 'soldier', id: booking.candidateId }
  const { testDayId, slotId, graderId, startsAt } = booking
  if (was.fromSlotId === null) {
    await updateBooking(tx, booking.id, { slotId, state: 'cancelled', stateReason: REASON })
    await notifyBooking(tx, now, actor, 'cancelled', { ...booking, graderIds: [graderId] })
    const before = { bookingId: booking.id, state: booking.state }
    note({
      action: 'booking.cancelled',
      subject,
      before,
      after: { bookingId: booking.id, state: 'cancelled' },
      reason: REASON,
    })
    return true
  }
  const [back] = await lockSlots(tx, [was.fromSlotId])
  if (!back || back.bookingId !== null || back.calledOff || back.startsAt <= now) {
    await updateBooking(tx, booking.id, { slotId })
    return false
  }
  const placed = { testDayId: back.testDayId, slotId: back.id, graderId: back.graderId, startsAt: back.startsAt }
  await updateBooking(tx, booking.id, placed)
  const told = { ...booking, ...placed, day: back.day, graderIds: [graderId, back.graderId] }
  await notifyBooking(tx, now, actor, 'moved', told)
  note({
    action: 'booking.moved',
    subject,
    before: { bookingId: booking.id, testDayId, slotId, startsAt: startsAt?.toISOString() ?? null },
    after: { bookingId: booking.id, testDayId: back.testDayId, slotId: back.id },
    reason: REASON,
  })
  return true
}
