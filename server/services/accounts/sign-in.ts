import { readAccountByName, type StoredAccount } from '../../db/accounts.db.ts'
import { deleteSession, insertSession, readSession, touchSession } from '../../db/sessions.db.ts'
import type { Actor, Role } from '../../domain/access/actor.ts'
import { AppError } from '../../errors.ts'
import type { Context } from '../context.ts'
import { passwordFits } from './password.ts'
import { hashToken, newToken } from './token.ts'

const HOUR_MS = 3_600_000
const IDLE_MS = 12 * HOUR_MS
const LONGEST_MS = 7 * 24 * HOUR_MS
/** A session is marked as seen at most so often. */
const TOUCH_EVERY_MS = 60_000

/** Opens a session. Out: its token, for the cookie. Wrong name and wrong password are told apart by nothing. */
export async function signIn(
  context: Context,
  { name, password }: { name: string; password: string },
): Promise<{ token: string; actor: Actor }> {
  const account = await readAccountByName(context.db, name)
  const fits = await passwordFits(account?.passwordHash ?? null, password)
  if (!account || !fits) {
    throw new AppError(
      'not-signed-in',
      'wrong-name-or-password',
      'Name or password is wrong. Check both and try again.',
    )
  }
  const token = newToken()
  await insertSession(context.db, hashToken(token), account.accountId, context.clock())
  return { token, actor: toActor(account) }
}

/** Who a session's token stands for; null for none, an unknown or an expired one. */
export async function actorOfToken(context: Context, token: string | undefined): Promise<Actor | null> {
  if (!token) return null
  const tokenHash = hashToken(token)
  const session = await readSession(context.db, tokenHash)
  if (!session) return null
  const now = context.clock()
  const idle = now.getTime() - session.seenAt.getTime()
  if (idle > IDLE_MS || now.getTime() - session.createdAt.getTime() > LONGEST_MS) {
    await deleteSession(context.db, tokenHash)
    return null
  }
  if (idle > TOUCH_EVERY_MS) await touchSession(context.db, tokenHash, now)
  return toActor(session)
}

/** Ends the session of a token. */
export async function signOut(context: Context, token: string | undefined): Promise<void> {
  if (token) await deleteSession(context.db, hashToken(token))
}

function toActor({ accountId, name, roles, soldierId, unitId }: StoredAccount): Actor {
  return { accountId, name, roles: roles as Role[], soldierId, unitId, address: null }
}
