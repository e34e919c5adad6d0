import type { Actor } from '../../server/domain/access/actor.ts'
import { bookInBulk } from '../../server/services/bookings/book-in-bulk.ts'
import { callOffDay, planCallOff } from '../../server/services/bookings/call-off-day.ts'
import { planBookings } from '../../server/services/bookings/plan-bookings.ts'
import type { Context } from '../../server/services/context.ts'
import { findRetests } from '../../server/services/dashboards/retests.ts'
import { addSlots } from '../../server/services/test-days/slots.ts'
import { today } from '../../server/services/today.ts'
import type { PlannedEvent } from '../generate/plan.ts'
import { type Ids, idOf } from './ids.ts'

const GRADERS_A_DAY = 3
/** How many are booked on each of the next test days, in order; the days after stay free. */
const BOOKED = [9, 6, 4, 2]
/** Of the days ahead the one that is called off, from 0. */
const CALLED_OFF = 1

/** Gives the test days ahead slots and graders, books the first of the backlog there, and calls one day off. */
export async function bookTestDays(
  context: Context,
  office: Actor,
  ids: Ids,
  events: readonly PlannedEvent[],
): Promise<void> {
  const now = await today(context)
  const ahead = [...ids.testDays].filter(([on]) => on > now).sort(([one], [other]) => (one < other ? -1 : 1))
  const graders = gradersOn(events, now)
  for (const [at, [, id]] of ahead.entries()) {
    const chosen = Array.from({ length: GRADERS_A_DAY }, (_, nth) => graders[(at + nth) % graders.length]!)
    const graderIds = [...new Set(chosen)].map((key) => idOf(ids.soldiers, key))
    await addSlots(context, office, id, { from: '08:00', to: '12:00', minutes: 40, pause: 5, graderIds })
  }
  const { items } = await findRetests(context, office, { limit: 500 })
  let next = 0
  for (const [at, most] of BOOKED.entries()) {
    const day = ahead[at]
    if (!day) break
    const wanted = items
      .slice(next, next + 2 * most)
      .map(({ soldierId, standard }) => ({ candidateId: soldierId, standard }))
    next += 2 * most
    if (wanted.length > 0) await bookSome(context, office, day[1], wanted, most)
  }
  const off = ahead[CALLED_OFF]
  if (!off) return
  const plan = await planCallOff(context, office, off[1])
  const moves = plan.items.flatMap(({ bookingId, slotId }) => (bookingId && slotId ? [{ bookingId, slotId }] : []))
  await callOffDay(context, office, off[1], { reason: 'The hall is needed for a wedding detail.', moves })
}

/** Soldiers appointed to grade on a day, by roster number, in order of the events. */
function gradersOn(events: readonly PlannedEvent[], day: string): string[] {
  const appointed = events.flatMap((event) =>
    event.kind === 'appointment' && event.body.from <= day && (event.body.to === null || day <= event.body.to)
      ? event.soldier
      : [],
  )
  return [...new Set(appointed)].sort()
}

async function bookSome(
  context: Context,
  office: Actor,
  testDayId: string,
  wanted: { candidateId: string; standard: string }[],
  most: number,
): Promise<void> {
  const distinct = [...new Map(wanted.map((one) => [`${one.candidateId} ${one.standard}`, one])).values()]
  const plan = await planBookings(context, office, { testDayIds: [testDayId], wanted: distinct })
  const bookings = plan.items
    .filter(({ conflicts }) => conflicts.every(({ weight }) => weight === 'mind'))
    .flatMap(({ candidateId, standard, slotId }) => (slotId ? [{ candidateId, standard, slotId }] : []))
    .slice(0, most)
  if (bookings.length > 0) await bookInBulk(context, office, { bookings, whatFits: true })
}
