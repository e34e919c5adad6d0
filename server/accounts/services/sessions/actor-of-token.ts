import type { Context } from '../../../context/context.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { deleteSession, readSession, touchSession } from '../../db/sessions.db.ts'
import { hashToken } from '../token.ts'
import { expiredBefore } from './session-life.ts'
import { toActor } from './to-actor.ts'

/** A session is marked as seen at most so often. */
const TOUCH_EVERY_MS = 60_000

/** Who a session's token stands for; null for none, an unknown or an expired one, or a disabled account. */
export async function actorOfToken(context: Context, token: string | undefined): Promise<Actor | null> {
  if (token === undefined) return null
  const tokenHash = hashToken(token)
  const session = await readSession(context.db, tokenHash)
  if (!session) return null
  const now = context.clock()
  const { seenBefore, createdBefore } = expiredBefore(now)
  if (session.seenAt < seenBefore || session.createdAt < createdBefore) {
    await deleteSession(context.db, tokenHash)
    return null
  }
  if (now.getTime() - session.seenAt.getTime() > TOUCH_EVERY_MS) await touchSession(context.db, tokenHash, now)
  return toActor(session)
}
