import type { Context } from '../../../context/context.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { deleteSession, readSession, touchSession } from '../../db/sessions.db.ts'
import { hashToken } from '../token.ts'
import { expiredBefore } from './session-life.ts'
import { toActor } from './to-actor.ts'

/** A session is marked as seen at most so often. */
const TOUCH_EVERY_MS = 60_000

/** Who holds a session, and what it is good for. */
export interface Holder {
  readonly actor: Actor
  /** When they last proved who they are. */
  readonly confirmedAt: Date | null
  /** Good for nothing but setting up a second factor. */
  readonly onlyEnrols: boolean
}

/** Who a session's token stands for; null for none, an unknown or an expired one, or a disabled account. */
export async function holderOfToken(context: Context, token: string | undefined): Promise<Holder | null> {
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
  const { confirmedAt, onlyEnrols } = session
  return { actor: toActor(session), confirmedAt, onlyEnrols }
}
