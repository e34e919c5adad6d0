import type { CeremonyBody, CeremonyDetail, CeremonySummary } from '../../contract/ceremonies.ts'
import { insertCeremony, listCeremonies, readCeremony } from '../../db/ceremonies.db.ts'
import type { Transaction } from '../../db/client.ts'
import { soldiersInScope } from '../../db/roster.db.ts'
import { existingUnits, isAtOrBelow, readTimeZone } from '../../db/units.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { AppError, type ErrorItem, invalid, notFound } from '../../errors.ts'
import { requireAction } from '../access/require.ts'
import { scopeFor } from '../access/scope-for.ts'
import type { Context } from '../context.ts'
import { fromCursor, toPage } from '../cursor.ts'
import { recorded } from '../record/recorded.ts'
import { today } from '../today.ts'

/** Plans a ceremony with its posts; soldiers may be named to them whether or not they can stand that day. */
export async function createCeremony(context: Context, actor: Actor, body: CeremonyBody): Promise<{ id: string }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    const mayPlan = scope.everyone
      ? (await existingUnits(tx, [body.unitId])).length > 0
      : scope.unitId !== null && (await isAtOrBelow(tx, body.unitId, scope.unitId))
    if (!mayPlan) {
      throw invalid('unknown-unit', '/unitId', 'There is no such unit; create it first.')
    }
    const { certifications } = await context.catalogue.current(tx)
    const ids = new Map(certifications.map(({ code, id }) => [code, id]))
    await requireSoundPosts(tx, scope, body, ids)
    const day = dayInZone(body.startsAt, (await readTimeZone(tx, body.unitId)) ?? context.timeZone)
    const id = await insertCeremony(tx, body, day, ids)
    note({ action: 'ceremony.planned', subject: { kind: 'ceremony', id }, after: body })
    return { id }
  })
}

async function requireSoundPosts(
  tx: Transaction,
  scope: Scope,
  { posts }: CeremonyBody,
  certifications: ReadonlyMap<string, string>,
) {
  const named = posts.flatMap(({ soldierId }) => soldierId ?? [])
  const known = new Set(await soldiersInScope(tx, scope, named))
  const items = posts.flatMap((post, index): ErrorItem[] => {
    const at = `/posts/${index}`
    const same = (other: (typeof posts)[number]) => other.row === post.row && other.place === post.place
    const { soldierId } = post
    return [
      !certifications.has(post.certification) &&
        problem(`${at}/certification`, 'unknown-certification', `There is no certification "${post.certification}".`),
      posts.findIndex(same) < index &&
        problem(`${at}/place`, 'place-taken', `Row ${post.row}, place ${post.place} has a post already.`),
      soldierId !== null &&
        !known.has(soldierId) &&
        problem(`${at}/soldierId`, 'unknown-person', 'Nobody on the roster has this id.'),
      soldierId !== null &&
        named.indexOf(soldierId) !== named.lastIndexOf(soldierId) &&
        problem(`${at}/soldierId`, 'named-twice', 'One soldier is named to two posts.'),
    ].filter((item) => item !== false)
  })
  if (items[0]) throw new AppError('invalid', items[0].rule, items[0].detail, items)
}

const problem = (pointer: string, rule: string, detail: string): ErrorItem => ({ pointer, rule, detail })

/** Ceremonies from a day on (default: today), in order of time. */
export async function findCeremonies(
  context: Context,
  actor: Actor,
  query: { from?: string | undefined; limit: number; after?: string | undefined },
): Promise<{ items: CeremonySummary[]; next: string | null }> {
  const key = fromCursor(query.after, ['instant', 'uuid'])
  const after = key && { startsAt: String(key[0]), id: String(key[1]) }
  const from = query.from ?? (await today(context))
  const rows = await listCeremonies(context.db, await scopeFor(context, actor), from, { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ startsAt, id }) => [startsAt, id],
    (ceremony) => ceremony,
  )
}

/** One ceremony, its posts as they form up, and who can stand at them that day. */
export async function getCeremony(context: Context, actor: Actor, id: string): Promise<CeremonyDetail> {
  const ceremony = await readCeremony(context.db, await scopeFor(context, actor), id)
  if (!ceremony) throw notFound('ceremony')
  return ceremony
}
