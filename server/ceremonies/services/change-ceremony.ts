import { requireAction, requireUnitOpen } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import { noteNew } from '../../arms-and-grades/services/note-new.ts'
import type { Context } from '../../context/context.ts'
import type { CeremonyChange } from '../../contract/ceremonies/ceremonies.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { namingScope } from '../../domain/access/scope.ts'
import { invalid } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { soldiersInScope } from '../../soldiers/db/roster.db.ts'
import type { CeremonyRow } from '../db/ceremonies.db.ts'
import { updateCeremony } from '../db/ceremony-writes.db.ts'
import { problem, requireNone, soundPosts } from './manning/sound-posts.ts'
import { openCeremony } from './open-ceremony.ts'
import { reachOf } from './reach.ts'
import { toInstant } from './to-instant.ts'
import { toPlan } from './to-plan.ts'

/**
 * Changes the plan of a ceremony: times, rehearsals, posts added, moved and taken away. Whoever is named to a post that
 * stays remains so where the body does not say otherwise, also somebody whom this account may not see.
 */
export async function changeCeremony(
  context: Context,
  actor: Actor,
  id: string,
  body: CeremonyChange,
): Promise<{ version: number }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    const { ceremony } = await openCeremony(tx, actor, scope, { id, version: body.version, reach: 'plan' })
    if ((await reachOf(tx, actor, scope, body.unitId)) !== 'plan') {
      throw invalid('unknown-unit', '/unitId', 'There is no such unit; create it first.')
    }
    requireOwnPosts(ceremony, body)
    const stored = new Map(ceremony.posts.map((post) => [post.id, post.soldierId]))
    const posts = body.posts.map((post) => {
      const before = post.id === null ? null : (stored.get(post.id) ?? null)
      return { ...post, soldierId: post.soldierId === undefined ? before : post.soldierId }
    })
    const added = posts.flatMap(({ soldierId }) => soldierId ?? [])
    const known = new Set([
      ...(await soldiersInScope(tx, namingScope(scope), added)),
      ...ceremony.posts.flatMap(({ soldierId }) => soldierId ?? []),
    ])
    const { certifications } = await context.catalogue.current(tx)
    const ids = new Map(certifications.map(({ code, id }) => [code, id]))
    const stepIn = ceremony.alternates.map(({ soldierId }) => soldierId)
    await noteNew(tx, note, { grades: posts.flatMap(({ grades }) => grades ?? []), arms: posts.map(({ arm }) => arm) })
    const plan = await toPlan(context, tx, body)
    await requireUnitOpen(tx, plan.unitId, plan.day)
    await updateCeremony(tx, id, plan, soundPosts(posts, ids, known, stepIn))
    const { version, ...after } = body
    note({ action: 'ceremony.changed', subject: { kind: 'ceremony', id }, before: asPlanned(ceremony), after })
    return { version: version + 1 }
  })
}

/** Posts named by id must be of this ceremony, each once. */
function requireOwnPosts({ posts }: CeremonyRow, body: CeremonyChange): void {
  const own = new Set(posts.map(({ id }) => id))
  const seen = new Set<string>()
  const items = body.posts.flatMap((post, index) => {
    if (post.id === null) return []
    const wrong = !own.has(post.id) || seen.has(post.id)
    seen.add(post.id)
    const detail = 'This is no post of the ceremony, or it is given twice; leave the id out to add a post.'
    return wrong ? [problem(`/posts/${index}/id`, 'unknown-post', detail)] : []
  })
  requireNone(items)
}

/** A ceremony as a plan would say it, for the record. */
const asPlanned = ({
  title,
  place,
  unitId,
  notes,
  minutesBefore,
  minutesAfter,
  rehearsals,
  posts,
  ...row
}: CeremonyRow) => ({
  title,
  place,
  unitId,
  reportsAt: toInstant(row.reportsAt),
  startsAt: toInstant(row.startsAt),
  endsAt: toInstant(row.endsAt),
  minutesBefore,
  minutesAfter,
  notes,
  rehearsals: rehearsals.map((rehearsal) => ({
    startsAt: toInstant(rehearsal.startsAt),
    endsAt: toInstant(rehearsal.endsAt),
    place: rehearsal.place,
  })),
  posts,
})
