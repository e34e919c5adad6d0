import type { TestDay, TestDayBody } from '../../contract/test-days.ts'
import { insertTestDay, listTestDays } from '../../db/test-days.db.ts'
import { inTransaction } from '../../db/transaction.ts'
import { existingUnits } from '../../db/units.db.ts'
import { invalid } from '../../errors.ts'
import type { Actor } from '../actor.ts'
import type { Context } from '../context.ts'
import { fromCursor, toPage } from '../cursor.ts'

/** Plans a test day. */
export async function createTestDay(context: Context, _actor: Actor, body: TestDayBody): Promise<{ id: string }> {
  return inTransaction(context.db, async (tx) => {
    if ((await existingUnits(tx, [body.unitId])).length === 0) {
      throw invalid('unknown-unit', '/unitId', 'There is no such unit; create it first.')
    }
    return { id: await insertTestDay(tx, body) }
  })
}

/** Test days, latest first, with how many sheets were taken. */
export async function findTestDays(
  context: Context,
  _actor: Actor,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: TestDay[]; next: string | null }> {
  const key = fromCursor(query.after, ['day', 'uuid'])
  const after = key && { on: String(key[0]), id: String(key[1]) }
  const rows = await listTestDays(context.db, { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ on, id }) => [on, id],
    (day) => day,
  )
}
