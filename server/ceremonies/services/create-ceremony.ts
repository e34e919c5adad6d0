import { requireAction, requireUnitOpen } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import { noteNew } from '../../arms-and-grades/services/note-new.ts'
import type { Context } from '../../context/context.ts'
import type { CeremonyBody } from '../../contract/ceremonies/ceremonies.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { namingScope } from '../../domain/access/scope.ts'
import { invalid } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { soldiersInScope } from '../../soldiers/db/roster.db.ts'
import { insertCeremony } from '../db/ceremony-writes.db.ts'
import { problem, requireNone, soundPosts } from './manning/sound-posts.ts'
import { reachOf } from './reach.ts'
import { toPlan } from './to-plan.ts'

/** Plans a ceremony with its posts; soldiers may be named to them whether or not they may stand there. */
export async function createCeremony(context: Context, actor: Actor, body: CeremonyBody): Promise<{ id: string }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    if ((await reachOf(tx, actor, scope, body.unitId)) !== 'plan') {
      throw invalid('unknown-unit', '/unitId', 'There is no such unit; create it first.')
    }
    const { certifications } = await context.catalogue.current(tx)
    const ids = new Map(certifications.map(({ code, id }) => [code, id]))
    const named = [...body.posts.flatMap(({ soldierId }) => soldierId ?? []), ...body.alternates]
    const known = new Set(await soldiersInScope(tx, namingScope(scope), named))
    const posts = soundPosts(body.posts, ids, known, body.alternates)
    requireNone(
      body.alternates.flatMap((soldierId, index) => {
        const at = `/alternates/${index}`
        if (!known.has(soldierId)) return [problem(at, 'unknown-person', 'Nobody on the roster has this id.')]
        if (body.alternates.indexOf(soldierId) === index) return []
        return [problem(at, 'named-twice', 'One soldier is an alternate twice.')]
      }),
    )
    await noteNew(tx, note, { grades: posts.flatMap(({ grades }) => grades ?? []), arms: posts.map(({ arm }) => arm) })
    const stored = await toPlan(context, tx, body)
    await requireUnitOpen(tx, stored.unitId, stored.day)
    const id = await insertCeremony(tx, stored, posts, body.alternates)
    note({ action: 'ceremony.planned', subject: { kind: 'ceremony', id }, after: body })
    return { id }
  })
}
