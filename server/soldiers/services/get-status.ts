import { scopeFor } from '../../access/services/scope-for.ts'
import { readStatuses } from '../../assessment/db/standings.db.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { todayOfSoldier } from '../../context/today.ts'
import type { CertificationStatus } from '../../contract/standards/certifications.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { readSoldier } from '../db/roster.db.ts'

/** The status of one soldier as of a day, in each certification that fits them. */
export async function getStatus(
  context: Context,
  actor: Actor,
  soldierId: string,
  query: { readonly asOf?: string | undefined; readonly limit: number; readonly after?: string | undefined },
): Promise<{ items: CertificationStatus[]; next: string | null }> {
  const scope = await scopeFor(context, actor)
  const day = query.asOf ?? (await todayOfSoldier(context, soldierId))
  if (!(await readSoldier(context.db, scope, soldierId, day))) throw notFound('soldier')
  const key = fromCursor(query.after, ['text'])
  const page = { limit: query.limit + 1, after: key && String(key[0]) }
  const rows = await readStatuses(context.db, scope, soldierId, day, page)
  return toPage(
    rows,
    query.limit,
    ({ certification }) => [certification],
    (status) => status,
  )
}
