import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { NamingBody } from '../../../contract/ceremonies/ceremonies.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { namingScope } from '../../../domain/access/scope.ts'
import type { ErrorItem } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { soldiersInScope } from '../../../soldiers/db/roster.db.ts'
import { setNames } from '../../db/ceremony-writes.db.ts'
import { openCeremony } from '../open-ceremony.ts'
import { NAMED_TWICE, problem, requireNone } from './sound-posts.ts'

/**
 * Names soldiers to posts, or takes names off, all at once. Whoever may not stand there can be named all the same; the
 * post then counts as short. Who plans for a unit below the ceremony's names and takes off only people of that unit.
 */
export async function nameSoldiers(
  context: Context,
  actor: Actor,
  id: string,
  { version, names }: NamingBody,
): Promise<{ version: number }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    const { ceremony, reach } = await openCeremony(tx, actor, scope, { id, version, reach: 'name' })
    const before = new Map(ceremony.posts.map((post) => [post.id, post.soldierId]))
    const after = new Map([...before, ...names.map(({ postId, soldierId }) => [postId, soldierId] as const)])
    const everybody = [...after.values(), ...ceremony.alternates.map(({ soldierId }) => soldierId)]
    const people = [
      ...new Set(names.flatMap(({ postId, soldierId }) => [soldierId ?? [], before.get(postId) ?? []].flat())),
    ]
    const own = new Set(await soldiersInScope(tx, namingScope(scope), people))
    requireNone(
      names.flatMap(({ postId, soldierId }, index): ErrorItem[] => {
        const at = `/names/${index}`
        const named = before.get(postId)
        if (named === undefined || names.findIndex((name) => name.postId === postId) < index) {
          return [problem(`${at}/postId`, 'unknown-post', 'This is no post of the ceremony, or it is given twice.')]
        }
        if (named !== null && reach === 'name' && !own.has(named))
          return [problem(`${at}/postId`, 'other-unit', NOT_YOURS)]
        if (soldierId === null) return []
        if (!own.has(soldierId)) {
          return [problem(`${at}/soldierId`, 'unknown-person', 'Nobody on the roster has this id.')]
        }
        const isTwice = everybody.indexOf(soldierId) !== everybody.lastIndexOf(soldierId)
        return isTwice ? [problem(`${at}/soldierId`, 'named-twice', NAMED_TWICE)] : []
      }),
    )
    await setNames(tx, id, names)
    const were = names.map(({ postId }) => ({ postId, soldierId: before.get(postId) }))
    note({ action: 'ceremony.named', subject: { kind: 'ceremony', id }, before: were, after: names })
    return { version: version + 1 }
  })
}

const NOT_YOURS =
  'A soldier of another unit is named to this post. Ask that unit, or whoever plans the ceremony, to take the name off.'
