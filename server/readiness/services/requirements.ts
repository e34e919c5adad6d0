import { requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { today } from '../../context/today.ts'
import type { Requirements } from '../../contract/readiness/requirements.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { listRequirements } from '../db/requirements.db.ts'

/** By unit and grade, how many must hold which certification by the terms of a day, and how many do. */
export async function findRequirements(
  context: Context,
  actor: Actor,
  query: { limit: number; after?: string | undefined; asOf?: string | undefined; unitId?: string | undefined },
): Promise<Requirements> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const day = query.asOf ?? (await today(context, query.unitId))
  const key = fromCursor(query.after, ['uuid', 'text', 'text'])
  const after = key && { unitId: String(key[0]), grade: String(key[1]), certification: String(key[2]) }
  const rows = await listRequirements(
    context.db,
    scope,
    { day, unitId: query.unitId },
    { limit: query.limit + 1, after },
  )
  const page = toPage(
    rows,
    query.limit,
    ({ unitId, grade, certification }) => [unitId, grade, certification],
    (row) => row,
  )
  return { asOf: day, ...page }
}
