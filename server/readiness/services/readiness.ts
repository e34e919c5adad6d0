import { requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toCursor } from '../../context/cursor.ts'
import { today } from '../../context/today.ts'
import type { Readiness } from '../../contract/standards/certifications.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { readReadiness } from '../db/readiness.db.ts'

export interface DashboardQuery {
  readonly asOf?: string | undefined
  readonly unitId?: string | undefined
  readonly limit: number
  readonly after?: string | undefined
}

/** Who of a unit can stand as of a day, by soldier and certification, with counts of all. */
export async function getReadiness(
  context: Context,
  actor: Actor,
  query: DashboardQuery & { certification?: string | undefined },
): Promise<Readiness> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const asOf = query.asOf ?? (await today(context, query.unitId))
  const key = fromCursor(query.after, ['text', 'text'])
  const after = key && { rosterNumber: String(key[0]), certification: String(key[1]) }
  const filter = { day: asOf, unitId: query.unitId, certification: query.certification }
  const { items, counts } = await readReadiness(context.db, scope, filter, { limit: query.limit + 1, after })
  const shown = items.slice(0, query.limit)
  const last = shown.at(-1)
  const next = items.length > query.limit && last ? toCursor([last.rosterNumber, last.certification]) : null
  return { asOf, items: shown, counts, next }
}
