import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { AlternatesBody } from '../../../contract/ceremonies/ceremonies.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { namingScope } from '../../../domain/access/scope.ts'
import { type ErrorItem, invalid } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { soldiersInScope } from '../../../soldiers/db/roster.db.ts'
import { setAlternates } from '../../db/ceremony-writes.db.ts'
import { openCeremony } from '../open-ceremony.ts'
import { NAMED_TWICE, problem, requireNone } from './sound-posts.ts'

/**
 * Puts a ceremony's alternates in order, adds and takes away. Those there already are named by their own id, so that the
 * order can be changed around people of other units; who plans for a unit below leaves those as they are.
 */
export async function changeAlternates(
  context: Context,
  actor: Actor,
  id: string,
  { version, alternates }: AlternatesBody,
): Promise<{ version: number }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    const { ceremony, reach } = await openCeremony(tx, actor, scope, { id, version, reach: 'name' })
    const stored = new Map(ceremony.alternates.map((alternate) => [alternate.id, alternate]))
    const after = alternates.map(({ id: known, soldierId, postIds }) => ({
      soldierId: known === null ? soldierId : (stored.get(known)?.soldierId ?? null),
      postIds: [...new Set(postIds)].sort(),
    }))
    const posted = ceremony.posts.flatMap(({ soldierId }) => soldierId ?? [])
    const people = [...after.map(({ soldierId }) => soldierId), ...posted]
    const postIds = new Set(ceremony.posts.map((post) => post.id))
    const asked = [...stored.values(), ...after].flatMap(({ soldierId }) => soldierId ?? [])
    const own = new Set(await soldiersInScope(tx, namingScope(scope), asked))
    requireNone(
      alternates.flatMap((given, index): ErrorItem[] => {
        const at = `/alternates/${index}`
        const soldierId = after[index]!.soldierId
        if (soldierId === null) {
          const detail = 'Say who it is: the id of an alternate of this ceremony, or the soldierId of a new one.'
          return [problem(at, 'unknown-alternate', detail)]
        }
        if (given.id === null && !own.has(soldierId)) {
          return [problem(`${at}/soldierId`, 'unknown-person', 'Nobody on the roster has this id.')]
        }
        if (people.indexOf(soldierId) !== people.lastIndexOf(soldierId))
          return [problem(at, 'named-twice', NAMED_TWICE)]
        const foreign = given.postIds.findIndex((postId) => !postIds.has(postId))
        const detail = 'This is no post of the ceremony; take its id from the formation.'
        return foreign < 0 ? [] : [problem(`${at}/postIds/${foreign}`, 'unknown-post', detail)]
      }),
    )
    const others = (list: typeof after) => JSON.stringify(list.filter(({ soldierId }) => !own.has(soldierId!)))
    const before = ceremony.alternates.map(({ soldierId, postIds }) => ({ soldierId, postIds }))
    if (reach === 'name' && others(after) !== others(before)) {
      const detail = 'Alternates of other units stay as they are: only their unit, or whoever plans, changes them.'
      throw invalid('other-unit', '/alternates', detail)
    }
    await setAlternates(
      tx,
      id,
      after.map((one) => ({ ...one, soldierId: one.soldierId! })),
    )
    note({ action: 'ceremony.alternates-changed', subject: { kind: 'ceremony', id }, before, after })
    return { version: version + 1 }
  })
}
