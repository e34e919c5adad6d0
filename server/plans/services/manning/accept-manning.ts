import { scopeFor } from '../../../access/services/scope-for.ts'
import { lockCeremony, readCeremony } from '../../../ceremonies/db/ceremonies.db.ts'
import { setAlternates, setNames } from '../../../ceremonies/db/ceremony-writes.db.ts'
import { readOutlook } from '../../../ceremonies/db/outlook.db.ts'
import { occasionOf } from '../../../ceremonies/services/manning/judge-ceremony.ts'
import { MOST_ROWS } from '../../../ceremonies/services/manning/outlook-of.ts'
import type { Context } from '../../../context/context.ts'
import { today as todayOf } from '../../../context/today.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { namingScope } from '../../../domain/access/scope.ts'
import { whyNot } from '../../../domain/manning/why-not.ts'
import type { PlanProblem } from '../../../domain/plans/problem.ts'
import { AppError, type ErrorItem } from '../../../errors.ts'
import type { Note } from '../../../record/services/recorded.ts'
import type { PlanName } from '../../db/plan-names.db.ts'

interface Chosen {
  readonly pair: string
  readonly at: number
  readonly ceremonyId: string
  /** Null: as an alternate. */
  readonly postId: string | null
  readonly title: string
  readonly soldierId: string
  /** Who was named when the plan was made. */
  readonly before: string | null
}

/**
 * Names those of chosen pairs, all or none: a post where somebody else was named meanwhile, or a soldier who can no longer stand there,
 * is a conflict that says which.
 */
export async function acceptManning(
  context: Context,
  tx: Transaction,
  note: Note,
  actor: Actor,
  problem: PlanProblem,
  pairs: readonly string[],
): Promise<PlanName[]> {
  const chosen = chosenOf(problem, pairs)
  const items: ErrorItem[] = []
  const made: PlanName[] = []
  for (const ceremonyId of [...new Set(chosen.map((one) => one.ceremonyId))].sort()) {
    const own = chosen.filter((one) => one.ceremonyId === ceremonyId)
    const refused = await nameAll(context, tx, note, actor, ceremonyId, own)
    items.push(...refused)
    made.push(...own.map(({ pair, postId, soldierId, before }) => ({ pair, ceremonyId, postId, soldierId, before })))
  }
  if (items.length === 0) return made
  const detail = 'Some of this does not hold any more, so nobody was named. Work the plan out again, or leave them out.'
  throw new AppError('conflict', 'changed-since', detail, items)
}

async function nameAll(
  context: Context,
  tx: Transaction,
  note: Note,
  actor: Actor,
  ceremonyId: string,
  chosen: readonly Chosen[],
): Promise<ErrorItem[]> {
  const scope = await scopeFor(context, actor)
  const locked = await lockCeremony(tx, ceremonyId)
  const ceremony = locked && !locked.cancelled ? await readCeremony(tx, scope, ceremonyId) : null
  const refuse = ({ at, title }: Chosen, why: string): ErrorItem => ({
    pointer: `/pairs/${at}`,
    rule: 'changed-since',
    detail: `${title}: ${why}`,
  })
  if (!ceremony) return chosen.map((one) => refuse(one, 'the ceremony was called off.'))
  const today = await todayOf(context, ceremony.unitId)
  const rows = await readOutlook(tx, namingScope(scope), { ceremonyId, unitId: undefined, today, limit: MOST_ROWS })
  const busy = new Set([
    ...ceremony.posts.flatMap(({ soldierId }) => soldierId ?? []),
    ...ceremony.alternates.map(({ soldierId }) => soldierId),
  ])
  const canTake = (soldierId: string, postId: string | null) =>
    ceremony.posts.some(
      (post) =>
        (postId === null || post.id === postId) &&
        rows.some(
          (row) =>
            row.soldierId === soldierId &&
            row.certification === post.certification &&
            whyNot(post, occasionOf(ceremony), row).length === 0,
        ),
    )
  const items = chosen.flatMap((one) => {
    const post = ceremony.posts.find(({ id }) => id === one.postId)
    if (one.postId !== null && !post) return [refuse(one, 'there is no such post any more.')]
    if (post && post.soldierId !== one.before) return [refuse(one, 'somebody else was named meanwhile.')]
    if (busy.has(one.soldierId)) return [refuse(one, 'the soldier is named in this ceremony already.')]
    return canTake(one.soldierId, one.postId) ? [] : [refuse(one, 'the soldier can no longer stand there.')]
  })
  if (items.length > 0) return items
  const names = chosen.flatMap(({ postId, soldierId }) => (postId === null ? [] : [{ postId, soldierId }]))
  if (names.length > 0) {
    await setNames(tx, ceremonyId, names)
    const before = chosen.flatMap(({ postId, before: was }) => (postId === null ? [] : [{ postId, soldierId: was }]))
    note({ action: 'ceremony.named', subject: { kind: 'ceremony', id: ceremonyId }, before, after: names })
  }
  const added = chosen.filter(({ postId }) => postId === null).map(({ soldierId }) => ({ soldierId, postIds: [] }))
  if (added.length > 0) {
    const before = ceremony.alternates.map(({ soldierId, postIds }) => ({ soldierId, postIds }))
    const after = [...before, ...added]
    await setAlternates(tx, ceremonyId, after)
    note({ action: 'ceremony.alternates-changed', subject: { kind: 'ceremony', id: ceremonyId }, before, after })
  }
  return []
}

function chosenOf(problem: PlanProblem, pairs: readonly string[]): Chosen[] {
  const wanted = new Map(problem.wanted.map((one) => [one.id, one]))
  const byId = new Map(problem.pairs.map((pair) => [pair.id, pair]))
  return pairs.map((id, at) => {
    const pair = byId.get(id)!
    const { kind, ceremony, title, soldierId } = wanted.get(pair.wanted)!
    return {
      pair: id,
      at,
      ceremonyId: String(ceremony),
      postId: kind === 'post' ? pair.wanted : null,
      title: String(title),
      soldierId: pair.place.slice(0, pair.place.lastIndexOf('@')),
      before: soldierId === null ? null : String(soldierId),
    }
  })
}
