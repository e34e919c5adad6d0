import { requireAction } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import type { MadeBooking } from '../../../contract/test-days/bookings.ts'
import type { BookingBody } from '../../../contract/test-days/test-days.ts'
import { isDuplicate } from '../../../db/database-errors.ts'
import { shareSoldiers } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { bookingConflicts } from '../../../domain/booking/booking-conflicts.ts'
import { conflict, invalid, notFound } from '../../../errors.ts'
import { notifyBooking } from '../../../notices/services/notify-booking.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { insertBooking } from '../../db/bookings/bookings.db.ts'
import { lockSlots } from '../../db/bookings/slots.db.ts'
import { lockTestDay } from '../../db/test-days.db.ts'
import { gatherProspects } from './gather-prospects.ts'
import { placeOf } from './place-of.ts'
import { dayCalledOff, requireFreeSlot, requireUnrefused } from './require-bookable.ts'

/**
 * Books a candidate for a standard on a test day, in a slot of it or waiting in none.
 * Out: its id, and what was booked over. What cannot be or nobody can waive is a conflict.
 */
export async function addBooking(
  context: Context,
  actor: Actor,
  testDayId: string,
  body: BookingBody,
): Promise<MadeBooking> {
  requireAction(actor, 'plan-test-days')
  const { candidateId, standard } = body
  return refusingDuplicates(() =>
    recorded(context, actor, async (tx, note) => {
      const now = context.clock()
      const day = await lockTestDay(tx, testDayId)
      if (!day) throw notFound('test day')
      if (day.calledOff) throw dayCalledOff()
      const catalogue = await context.catalogue.current(tx)
      const standardId = catalogue.standards.get(standard)?.[0]?.standardId
      if (!standardId) throw invalid('unknown-standard', '/standard', `There is no standard "${standard}".`)
      const people = [candidateId, ...(body.graderId ? [body.graderId] : [])]
      const known = await shareSoldiers(tx, people)
      const missing = people.find((id) => !known.includes(id))
      if (missing) {
        const pointer = missing === candidateId ? '/candidateId' : '/graderId'
        throw invalid('unknown-person', pointer, 'Nobody on the roster has this id.')
      }
      const slot = body.slotId === null ? null : requireFreeSlot((await lockSlots(tx, [body.slotId]))[0], now)
      if (slot && slot.testDayId !== testDayId) throw notFound('slot')
      const graderId = slot ? slot.graderId : body.graderId
      const wanted = { candidateId, standard, movedId: null }
      const graders = graderId === null ? [] : [graderId]
      const [prospect] = await gatherProspects(tx, catalogue, [wanted], { from: day.on, graderIds: graders, now })
      const place = slot ? placeOf(slot) : { testDayId, day: day.on, time: null, graderId }
      const conflicts = bookingConflicts(prospect!)(place)
      requireUnrefused(conflicts)
      const startsAt = slot ? slot.startsAt : body.startsAt === null ? null : new Date(body.startsAt)
      const id = await insertBooking(tx, {
        testDayId,
        candidateId,
        standardId,
        slotId: body.slotId,
        graderId,
        startsAt,
      })
      const graderIds = [graderId]
      const told = { candidateId, standard, testDayId, day: day.on, startsAt, graderIds }
      await notifyBooking(tx, now, actor, 'booked', told)
      note({ action: 'booking.added', subject: { kind: 'soldier', id: candidateId }, after: { testDayId, ...body } })
      return { id, conflicts }
    }),
  )
}

/** Two who book at the same moment: the second is told so. */
export async function refusingDuplicates<Result>(work: () => Promise<Result>): Promise<Result> {
  try {
    return await work()
  } catch (error) {
    if (!isDuplicate(error)) throw error
    const detail =
      'The candidate is booked for this standard on that test day already, or the slot is taken. Look again.'
    throw conflict('booked-already', detail)
  }
}
