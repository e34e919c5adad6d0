import { requireAction, requireUnitInScope } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import { readDossier } from '../../../assessment/db/dossiers.db.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import { today, todayOfSoldier } from '../../../context/today.ts'
import type { CommandersWords, WaitingAward } from '../../../contract/readiness/commanders-words.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { asSuperior } from '../../../domain/access/scope.ts'
import { awardToExtend } from '../../../domain/assessment/award-to-extend.ts'
import { notFound } from '../../../errors.ts'
import { soldiersInScope } from '../../../soldiers/db/roster.db.ts'
import { listWaiting, readWords } from '../../db/commanders-words.db.ts'

interface WaitingQuery {
  readonly unitId?: string | undefined
  readonly soldierId?: string | undefined
  readonly limit: number
  readonly after?: string | undefined
}

/** The awards that wait for a commander, of soldiers in scope. */
export async function findWaiting(
  context: Context,
  actor: Actor,
  { limit, after, ...filter }: WaitingQuery,
): Promise<{ items: WaitingAward[]; next: string | null }> {
  requireAction(actor, 'see-people')
  const scope = asSuperior(await scopeFor(context, actor))
  await requireUnitInScope(context, scope, filter.unitId)
  const day = await today(context, filter.unitId)
  const key = fromCursor(after, ['day', 'text', 'text'])
  const place = key && { awardedOn: String(key[0]), rosterNumber: String(key[1]), certification: String(key[2]) }
  const rows = await listWaiting(context.db, scope, { day, ...filter }, { limit: limit + 1, after: place })
  return toPage(
    rows,
    limit,
    ({ awardedOn, rosterNumber, certification }) => [awardedOn, rosterNumber, certification],
    (row) => row,
  )
}

/**
 * What commanders said about a soldier's awards, and which may be extended today.
 * @throws AppError not-found
 */
export async function findWords(context: Context, actor: Actor, soldierId: string): Promise<CommandersWords> {
  const scope = await scopeFor(context, actor)
  if ((await soldiersInScope(context.db, scope, [soldierId])).length === 0) throw notFound('soldier')
  const day = await todayOfSoldier(context, soldierId)
  const [words, catalogue, dossier] = await Promise.all([
    readWords(context.db, soldierId, context.timeZone),
    context.catalogue.current(context.db),
    readDossier(context.db, soldierId),
  ])
  const extendable = catalogue.certifications.flatMap((certification) => {
    const found = awardToExtend(certification, catalogue.judging.breaks, dossier, day)
    if (!found || found.daysLeft === 0) return []
    return [{ certification: certification.code, validThrough: found.validThrough, daysLeft: found.daysLeft }]
  })
  return { ...words, extendable }
}
