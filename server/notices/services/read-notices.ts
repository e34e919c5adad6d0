import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { Notice } from '../../contract/notices/notices.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { countUnread, listNotices, markRead, type Reader } from '../db/notices.db.ts'

const SHOWN_FOR_MS = 60 * 86_400_000

const readerOf = (context: Context, { accountId, soldierId, unitId, roles }: Actor): Reader => ({
  accountId,
  soldierId,
  office: roles.includes('office'),
  ledUnitId: roles.includes('leader') ? unitId : null,
  commandedUnitId: roles.includes('commander') ? unitId : null,
  since: new Date(context.clock().getTime() - SHOWN_FOR_MS),
})

/** The account's notices of the last sixty days about people in its scope, latest first. */
export async function findNotices(
  context: Context,
  actor: Actor,
  query: { unread: 'true' | 'false'; limit: number; after?: string | undefined },
): Promise<{ items: Notice[]; next: string | null }> {
  const key = fromCursor(query.after, ['instant', 'uuid'])
  const after = key && { at: String(key[0]), id: String(key[1]) }
  const filter = { unread: query.unread === 'true' }
  const page = { limit: query.limit + 1, after }
  const rows = await listNotices(context.db, await scopeFor(context, actor), readerOf(context, actor), filter, page)
  return toPage(
    rows,
    query.limit,
    ({ at, id }) => [at, id],
    (notice) => notice,
  )
}

/** Those of some notices that the account may see now, has not read, and that are not over; the latest first. */
export async function findUnreadAmong(context: Context, actor: Actor, ids: readonly string[]): Promise<Notice[]> {
  const filter = { unread: true, ids }
  const page = { limit: ids.length, after: null }
  return listNotices(context.db, await scopeFor(context, actor), readerOf(context, actor), filter, page)
}

/** How many of them the account has not read. */
export async function countNotices(context: Context, actor: Actor): Promise<{ unread: number }> {
  return { unread: await countUnread(context.db, await scopeFor(context, actor), readerOf(context, actor)) }
}

/** Marks some or all of them as read; what is of the moment leaves no trace in the record. */
export async function readNotices(context: Context, actor: Actor, ids: readonly string[] | undefined) {
  await markRead(context.db, await scopeFor(context, actor), readerOf(context, actor), ids)
  return countNotices(context, actor)
}
