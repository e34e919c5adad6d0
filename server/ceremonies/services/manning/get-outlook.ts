import { requireUnitInScope } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toCursor } from '../../../context/cursor.ts'
import type { Outlook } from '../../../contract/ceremonies/outlooks.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { notFound } from '../../../errors.ts'
import { readCeremony } from '../../db/ceremonies.db.ts'
import { outlookOf } from './outlook-of.ts'

/** How the people of a unit stand with one ceremony, in pages; the counts of all come with every page. */
export async function getOutlook(
  context: Context,
  actor: Actor,
  id: string,
  query: { unitId?: string | undefined; limit: number; after?: string | undefined },
): Promise<Outlook> {
  const scope = await scopeFor(context, actor)
  const ceremony = await readCeremony(context.db, scope, id)
  if (!ceremony) throw notFound('ceremony')
  await requireUnitInScope(context, scope, query.unitId)
  const start = Number(fromCursor(query.after, ['number'])?.[0] ?? 0)
  const end = start + query.limit
  const { items, counts } = await outlookOf(context, scope, ceremony, query.unitId)
  return {
    day: ceremony.day,
    counts,
    items: items.slice(start, end),
    next: end < items.length ? toCursor([end]) : null,
  }
}
