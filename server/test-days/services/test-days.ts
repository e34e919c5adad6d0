import { existingUnits } from '../../access/db/units.db.ts'
import { requireAction, requireUnitInScope, requireUnitOpen } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { TestDay, TestDayBody } from '../../contract/test-days/test-days.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { invalid } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { insertTestDay, listTestDays, type TestDayFilter } from '../db/test-days.db.ts'

/** Plans a test day. */
export async function createTestDay(context: Context, actor: Actor, body: TestDayBody): Promise<{ id: string }> {
  requireAction(actor, 'plan-test-days')
  return recorded(context, actor, async (tx, note) => {
    if ((await existingUnits(tx, [body.unitId])).length === 0) {
      throw invalid('unknown-unit', '/unitId', 'There is no such unit; create it first.')
    }
    await requireUnitOpen(tx, body.unitId, body.on)
    const id = await insertTestDay(tx, body)
    note({ action: 'test-day.planned', subject: { kind: 'test day', id }, after: body })
    return { id }
  })
}

/** Test days, latest first, with how many sheets were taken. */
export async function findTestDays(
  context: Context,
  actor: Actor,
  query: TestDayFilter & { limit: number; after?: string | undefined },
): Promise<{ items: TestDay[]; next: string | null }> {
  const key = fromCursor(query.after, ['day', 'uuid'])
  const after = key && { on: String(key[0]), id: String(key[1]) }
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const rows = await listTestDays(context.db, scope, query, context.clock(), { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ on, id }) => [on, id],
    (day) => day,
  )
}
