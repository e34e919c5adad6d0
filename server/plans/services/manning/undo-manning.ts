import { scopeFor } from '../../../access/services/scope-for.ts'
import { lockCeremony, readCeremony } from '../../../ceremonies/db/ceremonies.db.ts'
import { setAlternates, setNames } from '../../../ceremonies/db/ceremony-writes.db.ts'
import type { Context } from '../../../context/context.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { conflict } from '../../../errors.ts'
import type { Note } from '../../../record/services/recorded.ts'
import { listPlanNames, markNamesUndone, type PlanName } from '../../db/plan-names.db.ts'

/** Takes those off whom a plan named and nobody has changed since; who was named before is named again. */
export async function undoManning(
  context: Context,
  tx: Transaction,
  note: Note,
  actor: Actor,
  planId: string,
): Promise<{ undone: number; left: number }> {
  const made = await listPlanNames(tx, planId)
  if (made.length === 0) throw conflict('nothing-to-undo', 'Nothing of this plan was accepted, or all was undone.')
  let undone = 0
  for (const ceremonyId of [...new Set(made.map((one) => one.ceremonyId))].sort()) {
    const own = made.filter((one) => one.ceremonyId === ceremonyId)
    undone += await takeOff(context, tx, note, actor, ceremonyId, own)
  }
  await markNamesUndone(tx, planId, context.clock())
  note({ action: 'plan.undone', subject: { kind: 'plan', id: planId }, after: { names: undone } })
  return { undone, left: made.length - undone }
}

async function takeOff(
  context: Context,
  tx: Transaction,
  note: Note,
  actor: Actor,
  ceremonyId: string,
  made: readonly PlanName[],
): Promise<number> {
  const locked = await lockCeremony(tx, ceremonyId)
  const ceremony = locked && !locked.cancelled && (await readCeremony(tx, await scopeFor(context, actor), ceremonyId))
  if (!ceremony) return 0
  const subject = { kind: 'ceremony', id: ceremonyId }
  const elsewhere = new Set(ceremony.posts.flatMap(({ soldierId }) => soldierId ?? []))
  const names = made.flatMap(({ postId, soldierId, before }) => {
    const isSame = ceremony.posts.some((post) => post.id === postId && post.soldierId === soldierId)
    if (!isSame || postId === null) return []
    return [{ postId, soldierId: before !== null && elsewhere.has(before) ? null : before, was: soldierId }]
  })
  if (names.length > 0) {
    const after = names.map(({ postId, soldierId }) => ({ postId, soldierId }))
    await setNames(tx, ceremonyId, after)
    note({
      action: 'ceremony.named',
      subject,
      before: names.map(({ postId, was }) => ({ postId, soldierId: was })),
      after,
    })
  }
  const added = new Set(made.filter(({ postId }) => postId === null).map(({ soldierId }) => soldierId))
  const before = ceremony.alternates.map(({ soldierId, postIds }) => ({ soldierId, postIds }))
  const after = before.filter(({ soldierId }) => !added.has(soldierId))
  if (after.length < before.length) {
    await setAlternates(tx, ceremonyId, after)
    note({ action: 'ceremony.alternates-changed', subject, before, after })
  }
  return names.length + before.length - after.length
}
