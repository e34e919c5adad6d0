import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { BookingPlan, CallOff, CallOffBody } from '../../../contract/test-days/bookings.ts'
import type { Catalogue } from '../../../db/catalogue.db.ts'
import type { Transaction } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { bookingConflicts } from '../../../domain/booking/booking-conflicts.ts'
import type { BookingRule, Prospect } from '../../../domain/booking/types.ts'
import { conflict, invalid, notFound } from '../../../errors.ts'
import { notifyBooking, type ToldBooking } from '../../../notices/services/notify-booking.ts'
import { type Note, recorded } from '../../../record/services/recorded.ts'
import { insertBooking, type LockedBooking, lockOpenBookings, updateBooking } from '../../db/bookings/bookings.db.ts'
import { markCalledOff } from '../../db/bookings/call-offs.db.ts'
import { listFreeSlotsAfter, lockSlots } from '../../db/bookings/slots.db.ts'
import { lockTestDay } from '../../db/test-days.db.ts'
import { refusingDuplicates } from './add-booking.ts'
import { gatherProspects } from './gather-prospects.ts'
import { placeOf } from './place-of.ts'
import { propose } from './propose.ts'
import { requireFreeSlot, requireUnrefused } from './require-bookable.ts'

/** So many of the next free slots are looked at. */
const SLOTS_LOOKED_AT = 400

/**
 * Where everybody would go if the day were called off: the next free slots, those booked first choosing first; nowhere
 * those who need no other slot. Stores nothing.
 */
export async function planCallOff(context: Context, actor: Actor, testDayId: string): Promise<BookingPlan> {
  requireAction(actor, 'plan-test-days')
  const scope = await scopeFor(context, actor)
  return inTransaction(context.db, async (tx) => {
    const now = context.clock()
    const day = await requireCallable(tx, testDayId)
    const open = await lockOpenBookings(tx, testDayId)
    const slots = await listFreeSlotsAfter(tx, scope, testDayId, now, SLOTS_LOOKED_AT)
    const place = { testDayId, day, time: null, graderId: null }
    const sparedBy = (prospect: Prospect) =>
      bookingConflicts(prospect)(place).find(({ rule }) => NEEDS_NO_OTHER.includes(rule)) ?? null
    return propose(tx, await context.catalogue.current(tx), open.map(toWanted), slots, { now, sparedBy })
  })
}

/** Whoever has passed, or has another slot for the standard, takes none from those who have not. */
const NEEDS_NO_OTHER: readonly BookingRule[] = ['not-needed', 'booked-elsewhere']

/**
 * Calls a whole test day off in one transaction. Whoever was still to be tested is booked anew in the slot named for
 * them; all others are back in the backlog. Bookings of the day stay on it as cancelled, with the reason.
 */
export async function callOffDay(
  context: Context,
  actor: Actor,
  testDayId: string,
  body: CallOffBody,
): Promise<CallOff> {
  requireAction(actor, 'plan-test-days')
  return refusingDuplicates(() =>
    recorded(context, actor, async (tx, note) => {
      await requireCallable(tx, testDayId)
      const open = await lockOpenBookings(tx, testDayId)
      const strange = body.moves.findIndex(({ bookingId }) => !open.some(({ id }) => id === bookingId))
      if (strange !== -1) {
        const detail = 'This booking is not one of the day any more. Look at the plan again.'
        throw invalid('not-of-this-day', `/moves/${strange}/bookingId`, detail)
      }
      const reason = body.reason
      for (const { id } of open) await updateBooking(tx, id, { state: 'cancelled', stateReason: reason })
      const now = context.clock()
      await markCalledOff(tx, testDayId, now, reason)
      for (const one of open) {
        const told = { ...one, graderIds: [one.graderId], toLeaders: true }
        await notifyBooking(tx, now, actor, 'day called off', told)
      }
      const rebooked = await rebook(tx, await context.catalogue.current(tx), open, body.moves, now, note)
      for (const one of rebooked) await notifyBooking(tx, now, actor, 'booked', { ...one, toLeaders: true })
      const moved = body.moves.length
      const answer = { moved, backToBacklog: open.length - moved }
      note({ action: 'test-day.called-off', subject: { kind: 'test day', id: testDayId }, after: answer, reason })
      return answer
    }),
  )
}

/** The day of a test day that can be called off. */
async function requireCallable(tx: Transaction, testDayId: string): Promise<string> {
  const day = await lockTestDay(tx, testDayId)
  if (!day) throw notFound('test day')
  if (day.calledOff) throw conflict('day-called-off', 'This test day was called off already.')
  return day.on
}

const toWanted = ({ id, candidateId, standard }: LockedBooking) => ({ candidateId, standard, movedId: id })

async function rebook(
  tx: Transaction,
  catalogue: Catalogue,
  open: readonly LockedBooking[],
  moves: CallOffBody['moves'],
  now: Date,
  note: Note,
): Promise<ToldBooking[]> {
  const rebooked: ToldBooking[] = []
  if (moves.length === 0) return rebooked
  const slots = new Map(
    (
      await lockSlots(
        tx,
        moves.map(({ slotId }) => slotId),
      )
    ).map((slot) => [slot.id, slot]),
  )
  for (const { bookingId, slotId } of moves) {
    const booking = open.find(({ id }) => id === bookingId)!
    const slot = requireFreeSlot(slots.get(slotId), now)
    const { candidateId, standardId, standard } = booking
    const wanted = { candidateId, standard, movedId: null }
    const horizon = { from: slot.day, graderIds: slot.graderId ? [slot.graderId] : [], now }
    const [prospect] = await gatherProspects(tx, catalogue, [wanted], horizon)
    requireUnrefused(bookingConflicts(prospect!)(placeOf(slot)))
    const { testDayId, graderId, startsAt } = slot
    const id = await insertBooking(tx, { testDayId, candidateId, standardId, slotId, graderId, startsAt })
    await updateBooking(tx, bookingId, { movedToId: id })
    const before = { bookingId, testDayId: booking.testDayId, slotId: booking.slotId }
    const subject = { kind: 'soldier', id: candidateId }
    note({ action: 'booking.moved', subject, before, after: { bookingId: id, testDayId, slotId } })
    rebooked.push({ candidateId, standard, testDayId, day: slot.day, startsAt, graderIds: [graderId] })
  }
  return rebooked
}
