import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { invalid } from '../../errors.ts'
import { readPasswordHash } from '../db/account-changes.db.ts'
import { passwordFits } from './password.ts'
import { bySession, type Counter, takeAttempt } from './sessions/attempts.ts'
import type { Visitor } from './sessions/visitor.ts'
import { hashToken } from './token.ts'

/**
 * Asks for the present password before what a session alone may not do. Out: the hash it fits, and the counters to pass
 * once the change is made. Throws invalid for a wrong one (at `pointer`), TooManyRequests where too many came before.
 */
export async function requirePresentPassword(
  context: Context,
  actor: Actor,
  { sessionToken = '' }: Visitor,
  password: string,
  pointer: string,
): Promise<{ hash: string | null; counters: readonly Counter[] }> {
  const counters = [bySession(hashToken(sessionToken))]
  await takeAttempt(context, counters)
  const hash = await readPasswordHash(context.db, actor.accountId)
  if (!(await passwordFits(hash, password))) {
    throw invalid('wrong-password', pointer, 'This is not your present password. Type it again.')
  }
  return { hash, counters }
}
