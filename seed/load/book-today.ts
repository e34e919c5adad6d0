import type { Context } from '../../server/context/context.ts'
import { today } from '../../server/context/today.ts'
import type { Actor } from '../../server/domain/access/actor.ts'
import { instantInZone } from '../../server/domain/calendar/zoned-instant.ts'
import { findBookings } from '../../server/test-days/services/bookings/find-bookings.ts'
import { setSecondGrader } from '../../server/test-days/services/set-second-grader.ts'
import { addSlots } from '../../server/test-days/services/slots.ts'
import { createTestDay } from '../../server/test-days/services/test-days.ts'
import { zoneOfUnit } from '../../server/test-days/services/zone-of.ts'
import { bookSome, type Wanted } from './book-some.ts'
import { type Ids, idOf } from './ids.ts'

const ROUND_THE_DAY = { from: '07:00', to: '18:00', minutes: 40, pause: 5 }
/** So many are booked with the grader whose account the demo shows, and with the other one. */
const WITH_SHOWN = 6
const WITH_OTHER = 2

/**
 * Lets there be a test day on the day the demo is loaded, so that its grader has a list to grade right away: somebody with
 * a second grader, and somebody whom the grader grades as the second. They were booked before the day began, whatever the
 * time now. In: who may be booked, both graders by roster number.
 */
export async function bookToday(
  context: Context,
  office: Actor,
  ids: Ids,
  wanted: readonly Wanted[],
  graders: { readonly shown: string; readonly other: string },
): Promise<void> {
  const on = await today(context)
  const zone = await zoneOfUnit(context, context.db, idOf(ids.units, 'battalion'))
  const early: Context = { ...context, clock: () => new Date(instantInZone(on, 0, zone)) }
  const testDayId =
    ids.testDays.get(on) ??
    (await createTestDay(context, office, { on, unitId: idOf(ids.units, 'battalion'), place: 'Drill hall' })).id
  const [shown, other] = [idOf(ids.soldiers, graders.shown), idOf(ids.soldiers, graders.other)]
  for (const [graderId, most] of [
    [other, WITH_OTHER],
    [shown, WITH_SHOWN],
  ] as const) {
    await addSlots(early, office, testDayId, { ...ROUND_THE_DAY, graderIds: [graderId] })
    await bookSome(early, office, testDayId, await notBooked(context, office, on, wanted), most)
  }
  const { items } = await findBookings(context, office, { testDayId, limit: 100 })
  for (const [first, second] of [
    [shown, other],
    [other, shown],
  ] as const) {
    const booking = items.find(({ graderId, candidateId }) => graderId === first && candidateId !== second)
    if (booking) await setSecondGrader(context, office, booking.id, second)
  }
}

/** Those of the wanted who are booked on no day from one on. */
async function notBooked(context: Context, office: Actor, from: string, wanted: readonly Wanted[]): Promise<Wanted[]> {
  const { items } = await findBookings(context, office, { from, limit: 500 })
  const booked = new Set(items.map(({ candidateId }) => candidateId))
  return wanted.filter(({ candidateId }) => !booked.has(candidateId))
}
