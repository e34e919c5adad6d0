import { notAllowed } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { WalkIn, WalkInBody } from '../../../contract/test-days/bookings.ts'
import { shareSoldiers } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { bookingConflicts } from '../../../domain/booking/booking-conflicts.ts'
import { conflict, invalid, notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { insertBooking, lockBooking } from '../../db/bookings/bookings.db.ts'
import { findSameBooking, gradesOnTestDay } from '../../db/bookings/walk-ins.db.ts'
import { findByNumberAndName } from '../../db/day-list.db.ts'
import { lockTestDay } from '../../db/test-days.db.ts'
import { refusingDuplicates } from './add-booking.ts'
import { gatherProspects } from './gather-prospects.ts'
import { dayCalledOff, requireUnrefused } from './require-bookable.ts'

/**
 * Books somebody who came without a booking with the grader before whom they stand, checked in, under the id that the
 * grader's device gave it: once, whatever is repeated. A grader books onto themselves only, on a day on which they grade.
 * Where the candidate is booked with them already that booking is the answer; with another grader, a conflict.
 */
export async function addWalkIn(
  context: Context,
  actor: Actor,
  testDayId: string,
  id: string,
  body: WalkInBody,
): Promise<WalkIn> {
  const graderId = actor.soldierId
  if (!actor.roles.includes('grader') || graderId === null) throw notAllowed()
  const { today } = await scopeFor(context, actor)
  return refusingDuplicates(() =>
    recorded(context, actor, async (tx, note) => {
      const day = await lockTestDay(tx, testDayId)
      if (!day || !(await gradesOnTestDay(tx, graderId, testDayId))) throw notFound('test day')
      const found = await findByNumberAndName(tx, { ...body, on: day.on })
      if (!found) throw notFound('soldier with this roster number and family name')
      const candidateId = found.id
      const known = await lockBooking(tx, id)
      if (known) {
        if (known.candidateId === candidateId && known.graderId === graderId) return { id, candidateId }
        throw conflict('id-used', 'Another booking has this id. Add the walk-in anew.')
      }
      if (day.on > today) throw conflict('day-to-come', 'This test day is still to come; the training office books it.')
      if (day.calledOff) throw dayCalledOff()
      const catalogue = await context.catalogue.current(tx)
      const standardId = catalogue.standards.get(body.standard)?.[0]?.standardId
      if (!standardId) throw invalid('unknown-standard', '/standard', `There is no standard "${body.standard}".`)
      const same = await findSameBooking(tx, { testDayId, candidateId, standardId })
      if (same) {
        if (same.graderId === graderId) return { id: same.id, candidateId }
        const detail = 'The candidate is booked that day with another grader. The training office can move the booking.'
        throw conflict('booked-already', detail)
      }
      await shareSoldiers(tx, [candidateId, graderId])
      const wanted = { candidateId, standard: body.standard, movedId: null }
      const [prospect] = await gatherProspects(tx, catalogue, [wanted], {
        from: day.on,
        graderIds: [graderId],
        now: context.clock(),
      })
      requireUnrefused(bookingConflicts(prospect!)({ testDayId, day: day.on, time: null, graderId }))
      await insertBooking(tx, {
        id,
        testDayId,
        candidateId,
        standardId,
        graderId,
        slotId: null,
        startsAt: null,
        state: 'checked in',
        checkIn: body.found,
      })
      note({
        action: 'booking.walk-in-added',
        subject: { kind: 'soldier', id: candidateId },
        after: { bookingId: id, testDayId, standard: body.standard, graderId, checkIn: body.found },
      })
      return { id, candidateId }
    }),
  )
}
