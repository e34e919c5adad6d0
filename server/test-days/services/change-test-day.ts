import { requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { TestDayChange } from '../../contract/test-days/test-days.ts'
import type { Transaction } from '../../db/client.ts'
import { isOverlap } from '../../db/database-errors.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { instantInZone, minuteInZone } from '../../domain/calendar/zoned-instant.ts'
import { conflict, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { type NewSlot, shiftSlots } from '../db/bookings/slots.db.ts'
import { lockTestDay, type PlannedDay, readTestDay, updateTestDay } from '../db/test-days.db.ts'
import { zoneOfUnit } from './zone-of.ts'

/**
 * Changes place or day of a test day on which nothing took place; slots keep their times by the clock on the wall. Its
 * day can change only while nobody is booked, so that nobody is moved unasked.
 */
export async function changeTestDay(
  context: Context,
  actor: Actor,
  id: string,
  change: TestDayChange,
): Promise<{ id: string }> {
  requireAction(actor, 'plan-test-days')
  try {
    return await recorded(context, actor, async (tx, note) => {
      const before = await lockTestDay(tx, id)
      if (!before) throw notFound('test day')
      const after = { on: change.on ?? before.on, place: change.place ?? before.place }
      requireChangeable(before, after.on)
      if (after.on !== before.on) await moveSlots(context, actor, tx, id, before, after.on)
      await updateTestDay(tx, id, after)
      const { on, place } = before
      note({ action: 'test-day.changed', subject: { kind: 'test day', id }, before: { on, place }, after })
      return { id }
    })
  } catch (error) {
    if (!isOverlap(error)) throw error
    throw conflict(
      'grader-busy',
      'A grader of this day has a slot at that time on the other day. Change the slot first.',
    )
  }
}

function requireChangeable(day: PlannedDay, on: string): void {
  if (day.calledOff) throw conflict('day-called-off', 'This test day was called off. Plan another one.')
  if (day.tookPlace) {
    throw conflict('day-took-place', 'Tests took place on this test day, so it stays as it was. Plan another one.')
  }
  if (on !== day.on && day.bookings > 0) {
    const detail = 'Candidates are booked on this test day. Call it off, which books them anew, or move them first.'
    throw conflict('day-has-bookings', detail)
  }
}

async function moveSlots(
  context: Context,
  actor: Actor,
  tx: Transaction,
  id: string,
  { unitId }: PlannedDay,
  on: string,
): Promise<void> {
  const zone = await zoneOfUnit(context, tx, unitId)
  const { slotList } = (await readTestDay(tx, await scopeFor(context, actor), id, context.clock()))!
  const onNewDay = (instant: string) => new Date(instantInZone(on, minuteInZone(Date.parse(instant), zone), zone))
  const moved = slotList.map(({ id, graderId, startsAt, endsAt }): [string, NewSlot] => {
    const start = onNewDay(startsAt)
    const lasts = Date.parse(endsAt) - Date.parse(startsAt)
    return [id, { graderId, startsAt: start, endsAt: new Date(start.getTime() + lasts) }]
  })
  await shiftSlots(tx, id, new Map(moved))
}
