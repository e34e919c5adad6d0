import { requireUnitInScope } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import { today } from '../../../context/today.ts'
import type { OutlookPage } from '../../../contract/ceremonies/outlooks.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { listCeremonies } from '../../db/ceremonies.db.ts'
import { toInstant } from '../to-instant.ts'
import { judgePosts, toSummary } from './judge-ceremony.ts'
import { outlookOf } from './outlook-of.ts'

/**
 * The next ceremonies, each with its short posts and how the people of a unit stand with it. Without a unit: that of the
 * account; an account without one gets everybody in its scope.
 */
export async function findOutlooks(
  context: Context,
  actor: Actor,
  query: { unitId?: string | undefined; limit: number; after?: string | undefined },
): Promise<OutlookPage> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const unitId = query.unitId ?? scope.unitId ?? undefined
  const key = fromCursor(query.after, ['instant', 'uuid'])
  const rows = await listCeremonies(
    context.db,
    scope,
    { from: await today(context), cancelled: false },
    {
      limit: query.limit + 1,
      after: key && { startsAt: String(key[0]), id: String(key[1]) },
    },
  )
  const { items, next } = toPage(
    rows,
    query.limit,
    ({ startsAt, id }) => [toInstant(startsAt), id],
    (row) => row,
  )
  const outlooks = await Promise.all(
    items.map(async (row) => {
      const posts = judgePosts(row)
      const { items: people, counts } = await outlookOf(context, scope, row, unitId)
      return { ceremony: toSummary(row, posts), short: posts.filter(({ filled }) => !filled), counts, people }
    }),
  )
  return { unitId: unitId ?? null, items: outlooks, next }
}
