import { requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { today } from '../../context/today.ts'
import type { Slot } from '../../contract/test-days/test-days.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { listSlots } from '../db/bookings/slots.db.ts'

interface SlotQuery {
  readonly from?: string | undefined
  readonly through?: string | undefined
  readonly unitId?: string | undefined
  readonly free: 'true' | 'false'
  readonly limit: number
  readonly after?: string | undefined
}

/** Slots of the test days from a day on (default: today), in order of time; where asked so only those that are free and have not begun. */
export async function findSlots(
  context: Context,
  actor: Actor,
  query: SlotQuery,
): Promise<{ items: Slot[]; next: string | null }> {
  const key = fromCursor(query.after, ['instant', 'uuid'])
  const after = key && { startsAt: String(key[0]), id: String(key[1]) }
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const from = query.from ?? (await today(context, query.unitId))
  const filter = {
    from,
    through: query.through,
    unitId: query.unitId,
    freeAt: query.free === 'true' ? context.clock() : undefined,
  }
  const rows = await listSlots(context.db, scope, filter, { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ startsAt, id }) => [startsAt, id],
    (slot) => slot,
  )
}
