import { requireAction, unknownUnit } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { AskBody, CeremonyAsks } from '../../../contract/ceremonies/asks.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import type { Scope } from '../../../domain/access/scope.ts'
import { conflict, notFound } from '../../../errors.ts'
import { notifyAsk } from '../../../notices/services/notify-ask.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { answerAsk, insertAsk, listAsksFor, listUnitsToAsk, readAsk } from '../../db/asks.db.ts'
import { type CeremonyRow, lockCeremony, readCeremony } from '../../db/ceremonies.db.ts'
import { judgePosts } from '../manning/judge-ceremony.ts'
import { reachOf } from '../reach.ts'

/** What was asked for a ceremony, and which units can be asked: for who plans it. */
export async function findAsks(context: Context, actor: Actor, ceremonyId: string): Promise<CeremonyAsks> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  await openPlanned(context.db, actor, scope, ceremonyId)
  return {
    items: await listAsksFor(context.db, ceremonyId),
    units: await listUnitsToAsk(context.db, scope.everyone ? null : scope.unitId),
  }
}

/** Asks a unit whose soldiers the account may not name for one of them, for a post that is short. */
export async function askUnit(
  context: Context,
  actor: Actor,
  ceremonyId: string,
  { postId, unitId }: AskBody,
): Promise<{ id: string }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    await lockCeremony(tx, ceremonyId)
    const ceremony = await openPlanned(tx, actor, scope, ceremonyId)
    if (ceremony.cancelReason !== null) throw conflict('cancelled', 'The ceremony is called off.')
    const units = await listUnitsToAsk(tx, scope.everyone ? null : scope.unitId)
    if (!units.some(({ id }) => id === unitId)) throw unknownUnit()
    const post = judgePosts(ceremony).find(({ id }) => id === postId)
    if (!post) throw notFound('post')
    if (post.filled) throw conflict('post-filled', 'Somebody who can stand there is named to this post already.')
    const asked = await listAsksFor(tx, ceremonyId)
    if (asked.some((one) => one.postId === postId && one.askedUnitId === unitId && one.answer === null)) {
      throw conflict('asked-already', 'This unit was asked for a soldier for this post and has not answered yet.')
    }
    const askedAt = context.clock()
    const id = await insertAsk(tx, { ceremonyId, postId, unitId, askedById: actor.accountId, askedAt })
    await notifyAsk(tx, askedAt, 'soldier asked for', { askId: id, day: ceremony.day })
    note({ action: 'soldier.asked-for', subject: { kind: 'ceremony', id: ceremonyId }, after: { postId, unitId } })
    return { id }
  })
}

/** Takes an ask back that was not answered yet: whoever plans the ceremony. */
export async function takeAskBack(context: Context, actor: Actor, id: string): Promise<{ id: string }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    const found = await readAsk(tx, id)
    if (!found) throw notFound('ask')
    await lockCeremony(tx, found.ceremonyId)
    await openPlanned(tx, actor, scope, found.ceremonyId)
    if ((await readAsk(tx, id))?.answer !== null) throw conflict('answered-already', 'This was answered already.')
    const answered = {
      answer: 'taken back',
      word: '',
      answeredById: actor.accountId,
      answeredAt: context.clock(),
    } as const
    await answerAsk(tx, id, answered)
    const { postId, askedUnitId: unitId } = found
    note({
      action: 'soldier.ask-taken-back',
      subject: { kind: 'ceremony', id: found.ceremonyId },
      after: { postId, unitId },
    })
    return { id }
  })
}

/** A ceremony that the account may plan; any other is not there. */
async function openPlanned(tx: Transaction, actor: Actor, scope: Scope, id: string): Promise<CeremonyRow> {
  const ceremony = await readCeremony(tx, scope, id)
  if (!ceremony || (await reachOf(tx, actor, scope, ceremony.unitId)) !== 'plan') throw notFound('ceremony')
  return ceremony
}
