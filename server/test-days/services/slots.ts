import { requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { Slot, SlotsBody } from '../../contract/test-days/test-days.ts'
import type { Transaction } from '../../db/client.ts'
import { isOverlap } from '../../db/database-errors.ts'
import { shareSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { slotTimes } from '../../domain/booking/slot-times.ts'
import { instantInZone, minuteInZone } from '../../domain/calendar/zoned-instant.ts'
import { conflict, invalid, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { deleteSlot, findBusyGrader, insertSlots, lockSlots, type NewSlot, readSlots } from '../db/bookings/slots.db.ts'
import { lockTestDay } from '../db/test-days.db.ts'
import { zoneOfUnit } from './zone-of.ts'

const MOST_AT_ONCE = 400

/** Makes slots of a test day, for each grader one after the other; all of them, or none where a grader is busy. */
export async function addSlots(
  context: Context,
  actor: Actor,
  testDayId: string,
  body: SlotsBody,
): Promise<{ items: Slot[] }> {
  requireAction(actor, 'plan-test-days')
  const scope = await scopeFor(context, actor)
  return refusingOverlaps(() =>
    recorded(context, actor, async (tx, note) => {
      const day = await lockTestDay(tx, testDayId)
      if (!day) throw notFound('test day')
      if (day.calledOff) throw conflict('day-called-off', 'This test day was called off. Plan another one.')
      await requireGraders(tx, body.graderIds, '/graderIds')
      const zone = await zoneOfUnit(context, tx, day.unitId)
      const times = slotTimes({ from: minutesOf(body.from), to: minutesOf(body.to) }, body.minutes, body.pause)
      if (times.length === 0) {
        throw invalid('no-room', '/minutes', `No slot of ${body.minutes} minutes fits from ${body.from} to ${body.to}.`)
      }
      const graders = body.graderIds.length > 0 ? body.graderIds : [null]
      if (times.length * graders.length > MOST_AT_ONCE) {
        throw invalid('too-many-slots', '/minutes', `At most ${MOST_AT_ONCE} slots at once; make fewer or longer ones.`)
      }
      const at = (minute: number) => new Date(instantInZone(day.on, minute, zone))
      const slots = graders.flatMap((graderId) =>
        times.map(({ from, to }): NewSlot => ({ graderId, startsAt: at(from), endsAt: at(to) })),
      )
      await requireFreeGraders(tx, slots, zone)
      const ids = await insertSlots(tx, testDayId, slots)
      note({
        action: 'slots.added',
        subject: { kind: 'test day', id: testDayId },
        after: { ...body, slots: ids.length },
      })
      return { items: await readSlots(tx, scope, ids) }
    }),
  )
}

/** Removes a slot nobody is booked in. */
export async function removeSlot(context: Context, actor: Actor, id: string): Promise<void> {
  requireAction(actor, 'plan-test-days')
  await recorded(context, actor, async (tx, note) => {
    const [slot] = await lockSlots(tx, [id])
    if (!slot) throw notFound('slot')
    if (slot.bookingId !== null) {
      throw conflict('slot-taken', 'Somebody is booked in this slot. Move or cancel the booking first.')
    }
    await deleteSlot(tx, id)
    const { testDayId, graderId, startsAt, endsAt } = slot
    note({
      action: 'slot.removed',
      subject: { kind: 'test day', id: testDayId },
      before: { graderId, startsAt, endsAt },
    })
  })
}

/** Refuses slots in which a grader would be at two places; says who, where and when. */
export async function requireFreeGraders(
  tx: Transaction,
  slots: readonly NewSlot[],
  zone: string,
  exceptSlotId: string | null = null,
): Promise<void> {
  const busy = await findBusyGrader(tx, slots, exceptSlotId)
  if (!busy) return
  const time = `${clockOf(busy.startsAt, zone)} to ${clockOf(busy.endsAt, zone)}`
  const where = busy.place ? ` (${busy.place})` : ''
  throw conflict('grader-busy', `${busy.name} has a slot from ${time} that day already${where}. Choose other times.`)
}

/** Refuses graders who are not on the roster. */
export async function requireGraders(tx: Transaction, ids: readonly string[], pointer: string): Promise<void> {
  if ((await shareSoldiers(tx, ids)).length < ids.length) {
    throw invalid('unknown-person', pointer, 'Nobody on the roster has this id.')
  }
}

/** Two who give one grader slots at the same moment: the second is told so. */
export async function refusingOverlaps<Result>(work: () => Promise<Result>): Promise<Result> {
  try {
    return await work()
  } catch (error) {
    if (!isOverlap(error)) throw error
    throw conflict('grader-busy', 'A grader has a slot at that time already. Choose other times.')
  }
}

const minutesOf = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3))

const clockOf = (instant: Date, zone: string): string => {
  const minute = minuteInZone(instant.getTime(), zone)
  return [Math.floor(minute / 60), minute % 60].map((part) => String(part).padStart(2, '0')).join(':')
}
