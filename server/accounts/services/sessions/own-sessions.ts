import type { Context } from '../../../context/context.ts'
import type { OwnSession } from '../../../contract/accounts/accounts.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { deleteSessionOf, deleteSessionsOf, listSessions } from '../../db/sessions.db.ts'
import { hashToken } from '../token.ts'
import { expiredBefore } from './session-life.ts'
import type { Visitor } from './visitor.ts'

/** One's own sessions: this one, then last used first. */
export async function findOwnSessions(
  context: Context,
  { accountId }: Actor,
  { sessionToken = '' }: Visitor,
): Promise<{ items: OwnSession[]; next: null }> {
  const expired = expiredBefore(context.clock())
  const sessions = await listSessions(context.db, accountId, hashToken(sessionToken), expired)
  const items = sessions.map(({ createdAt, seenAt, ...rest }) => ({
    ...rest,
    createdAt: createdAt.toISOString(),
    seenAt: seenAt.toISOString(),
  }))
  return { items, next: null }
}

/** Ends one of one's own sessions; those of others are not found. */
export async function endOwnSession(context: Context, actor: Actor, id: string): Promise<void> {
  await recorded(context, actor, async (tx, note) => {
    if (!(await deleteSessionOf(tx, actor.accountId, id))) throw notFound('session')
    note({ action: 'session.ended', subject: { kind: 'account', id: actor.accountId } })
  })
}

/** Ends all of one's own sessions, this one too. */
export async function endOwnSessions(context: Context, actor: Actor): Promise<void> {
  await recorded(context, actor, async (tx, note) => {
    const ended = await deleteSessionsOf(tx, actor.accountId)
    note({ action: 'session.all-ended', subject: { kind: 'account', id: actor.accountId }, after: { ended } })
  })
}
