import { isAtOrBelow } from '../../../access/db/units.db.ts'
import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { AnswerBody, Ask, AskCandidates } from '../../../contract/ceremonies/asks.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { namingScope, type Scope } from '../../../domain/access/scope.ts'
import { whyNot } from '../../../domain/manning/why-not.ts'
import { conflict, invalid, notFound } from '../../../errors.ts'
import { notifyAsk } from '../../../notices/services/notify-ask.ts'
import { type Note, recorded } from '../../../record/services/recorded.ts'
import { answerAsk, listOpenAsks, readAsk } from '../../db/asks.db.ts'
import { type CeremonyRow, lockCeremony, readCeremony } from '../../db/ceremonies.db.ts'
import { setNames } from '../../db/ceremony-writes.db.ts'
import { type CandidateRow, listPostCandidates } from '../../db/post-candidates.db.ts'
import { namedAs } from '../manning/find-post-candidates.ts'
import { judgePosts, occasionOf } from '../manning/judge-ceremony.ts'

const LOAD_DAYS = 90
/** More than a unit has people who fit. */
const EVERYBODY = 5_000

/** What the account's unit and those below it are asked for and have not answered. */
export async function findOpenAsks(context: Context, actor: Actor): Promise<{ items: Ask[] }> {
  requireAction(actor, 'plan-ceremonies')
  const { everyone, unitId } = await scopeFor(context, actor)
  if (!everyone && unitId === null) return { items: [] }
  return { items: await listOpenAsks(context.db, everyone ? null : unitId, context.clock()) }
}

/** Who of the unit asked can stand at the post, who stood least first. */
export async function findAskCandidates(context: Context, actor: Actor, id: string): Promise<AskCandidates> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  const ask = await openAsked(context.db, scope, id)
  const ceremony = await readWhole(context.db, scope, ask.ceremonyId)
  const rows = await whoCanStand(context.db, scope, ask, ceremony)
  return {
    items: rows.map(({ soldierId, rosterNumber, name, grade, load }) => {
      return { soldierId, rosterNumber, name, grade: grade ?? '', stood: load }
    }),
  }
}

/** Answers for a unit that was asked: yes names one of its soldiers to the post, no says why. Who asked is told. */
export async function answerFor(context: Context, actor: Actor, id: string, body: AnswerBody): Promise<{ id: string }> {
  requireAction(actor, 'plan-ceremonies')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    const { ceremonyId } = await openAsked(tx, scope, id)
    const locked = await lockCeremony(tx, ceremonyId)
    const ask = await openAsked(tx, scope, id)
    if (ask.answer !== null) throw conflict('answered-already', 'This was answered already, or taken back.')
    if (!locked || locked.cancelled) throw conflict('cancelled', 'The ceremony is called off.')
    if (body.answer === 'yes') await nameOne(tx, note, scope, ask, body.soldierId)
    const word = body.answer === 'no' ? body.word : ''
    const answeredAt = context.clock()
    await answerAsk(tx, id, { answer: body.answer, word, answeredById: actor.accountId, answeredAt })
    await notifyAsk(tx, answeredAt, 'ask answered', { askId: id, day: ask.day })
    const after = { postId: ask.postId, unitId: ask.askedUnitId, answer: body.answer }
    note({
      action: 'soldier.ask-answered',
      subject: { kind: 'ceremony', id: ceremonyId },
      after,
      reason: word || undefined,
    })
    return { id }
  })
}

async function nameOne(tx: Transaction, note: Note, scope: Scope, ask: Ask, soldierId: string): Promise<void> {
  const { ceremonyId, postId } = ask
  const ceremony = await readWhole(tx, scope, ceremonyId)
  const before = ceremony.posts.find((post) => post.id === postId)?.soldierId ?? null
  if (judgePosts(ceremony).find((post) => post.id === postId)?.filled) {
    throw conflict('post-filled', 'Meanwhile somebody else was named to this post. Nothing is asked of you any more.')
  }
  if (!(await whoCanStand(tx, scope, ask, ceremony)).some((row) => row.soldierId === soldierId)) {
    const detail = 'This soldier is not of the unit asked, or cannot stand at the post. Take one of those listed.'
    throw invalid('cannot-stand', '/soldierId', detail)
  }
  await setNames(tx, ceremonyId, [{ postId, soldierId }])
  note({
    action: 'ceremony.named',
    subject: { kind: 'ceremony', id: ceremonyId },
    before: [{ postId, soldierId: before }],
    after: [{ postId, soldierId }],
  })
}

/** An ask to a unit that the account leads or stands above; any other is not there. */
async function openAsked(tx: Transaction, scope: Scope, id: string): Promise<Ask> {
  const ask = await readAsk(tx, id)
  const isOwn =
    ask && (scope.everyone || (scope.unitId !== null && (await isAtOrBelow(tx, ask.askedUnitId, scope.unitId))))
  if (!ask || !isOwn) throw notFound('ask')
  return ask
}

/** The ceremony, which may lie outside the scope of who is asked: nothing of it but the post is told. */
async function readWhole(tx: Transaction, scope: Scope, id: string): Promise<CeremonyRow> {
  const ceremony = await readCeremony(tx, { ...scope, everyone: true }, id)
  if (!ceremony) throw notFound('ceremony')
  return ceremony
}

async function whoCanStand(tx: Transaction, scope: Scope, ask: Ask, ceremony: CeremonyRow): Promise<CandidateRow[]> {
  const { ceremonyId, postId, askedUnitId: ofUnit } = ask
  const post = ceremony.posts.find(({ id }) => id === postId)!
  const filter = { ceremonyId, postId, ofUnit, days: LOAD_DAYS }
  const rows = await listPostCandidates(tx, namingScope(scope), filter, { limit: EVERYBODY, after: null })
  return rows.filter(
    (row) => namedAs(ceremony, row.soldierId) === null && whyNot(post, occasionOf(ceremony), row).length === 0,
  )
}
