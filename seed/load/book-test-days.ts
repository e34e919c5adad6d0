import type { Context } from '../../server/context/context.ts'
import { today } from '../../server/context/today.ts'
import type { Actor } from '../../server/domain/access/actor.ts'
import { findRetests } from '../../server/readiness/services/retests.ts'
import { callOffDay, planCallOff } from '../../server/test-days/services/bookings/call-off-day.ts'
import { addSlots } from '../../server/test-days/services/slots.ts'
import type { PlannedEvent } from '../generate/plan.ts'
import { bookSome } from './book-some.ts'
import { bookToday } from './book-today.ts'
import { type Ids, idOf } from './ids.ts'
import { keepSponsorAway } from './keep-sponsor-away.ts'

/** Who grades on the next test days; on those after there is one alone, so that not every retest can be placed. */
const GRADERS = [3, 3]
/** How many are booked on each of the next test days, in order; the days after stay free. */
const BOOKED = [9, 6, 4, 2]
/** Of the days ahead the one that is called off, from 0. */
const CALLED_OFF = 1

/**
 * Gives the test days ahead slots and graders, books the first of the backlog there, calls one day off, and lets there be
 * a test day today with the grader whose account the demo shows (by roster number).
 */
export async function bookTestDays(
  context: Context,
  office: Actor,
  ids: Ids,
  events: readonly PlannedEvent[],
  shownGrader: string,
): Promise<void> {
  const now = await today(context)
  const ahead = [...ids.testDays].filter(([on]) => on > now).sort(([one], [other]) => (one < other ? -1 : 1))
  const graders = gradersOn(events, now)
  for (const [at, [, id]] of ahead.entries()) {
    const chosen = Array.from({ length: GRADERS[at] ?? 1 }, (_, nth) => graders[(at + nth) % graders.length]!)
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
  const other = graders.find((key) => key !== shownGrader)
  const left = items.map(({ soldierId, standard }) => ({ candidateId: soldierId, standard }))
  if (other) await bookToday(context, office, ids, left, { shown: shownGrader, other })
  await keepSponsorAway(context, office, items, now)
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
