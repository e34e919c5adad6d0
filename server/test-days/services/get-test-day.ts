import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { TestDayDetail } from '../../contract/test-days/test-days.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { readTestDay } from '../db/test-days.db.ts'
import { zoneOfUnit } from './zone-of.ts'

/** One test day with its slots by time. */
export async function getTestDay(context: Context, actor: Actor, id: string): Promise<TestDayDetail> {
  const day = await readTestDay(context.db, await scopeFor(context, actor), id, context.clock())
  if (!day) throw notFound('test day')
  return { ...day, zone: await zoneOfUnit(context, context.db, day.unitId) }
}
