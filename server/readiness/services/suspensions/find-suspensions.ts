import { requireUnitInScope } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import { today } from '../../../context/today.ts'
import type { Suspension } from '../../../contract/readiness/suspensions.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { listSuspensions } from '../../db/suspensions.db.ts'

interface SuspensionQuery {
  readonly unitId?: string | undefined
  readonly soldierId?: string | undefined
  readonly limit: number
  readonly after?: string | undefined
}

/** Suspensions of soldiers in scope: those in force or to come first, then the lifted ones, each the latest first. */
export async function findSuspensions(
  context: Context,
  actor: Actor,
  { limit, after, ...filter }: SuspensionQuery,
): Promise<{ items: Suspension[]; next: string | null }> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, filter.unitId)
  const day = await today(context, filter.unitId)
  const key = fromCursor(after, ['number', 'day', 'uuid'])
  const place = key && { over: Number(key[0]), from: String(key[1]), id: String(key[2]) }
  const rows = await listSuspensions(context.db, scope, { day, ...filter }, { limit: limit + 1, after: place })
  return toPage(
    rows,
    limit,
    (row) => [row.over, row.from, row.id],
    ({ over, ...suspension }) => suspension,
  )
}
