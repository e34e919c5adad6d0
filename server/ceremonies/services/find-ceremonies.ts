import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { today } from '../../context/today.ts'
import type { CeremonySummary } from '../../contract/ceremonies/ceremonies.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { listCeremonies } from '../db/ceremonies.db.ts'
import { toSummary } from './manning/judge-ceremony.ts'

interface Query {
  from?: string | undefined
  through?: string | undefined
  cancelled?: 'with' | undefined
  limit: number
  after?: string | undefined
}

/** Ceremonies from a day on (default: today), in order of time; those called off only when asked for. */
export async function findCeremonies(
  context: Context,
  actor: Actor,
  { from, through, cancelled, limit, after }: Query,
): Promise<{ items: CeremonySummary[]; next: string | null }> {
  const key = fromCursor(after, ['instant', 'uuid'])
  const filter = { from: from ?? (await today(context)), through, cancelled: cancelled === 'with' }
  const rows = await listCeremonies(context.db, await scopeFor(context, actor), filter, {
    limit: limit + 1,
    after: key && { startsAt: String(key[0]), id: String(key[1]) },
  })
  return toPage(
    rows.map((row) => toSummary(row)),
    limit,
    ({ startsAt, id }) => [startsAt, id],
    (ceremony) => ceremony,
  )
}
