import type { Context } from '../../context/context.ts'
import type { Confirmation, ConfirmationBody, PasskeyRequest } from '../../contract/accounts/factors.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type AppError, conflict, invalid } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { readPasswordHash } from '../db/account-changes.db.ts'
import { hasFactor, readFactors } from '../db/factors.db.ts'
import { confirmSession, readSession } from '../db/sessions.db.ts'
import { fittingFactor, wrongFactor } from './factors/fitting-factor.ts'
import { askPasskey } from './factors/passkey-proof.ts'
import type { Site } from './factors/site.ts'
import { requirePresentPassword } from './present-password.ts'
import { byFactor, type Counter, passAttempt, takeAttempt } from './sessions/attempts.ts'
import type { Holder } from './sessions/holder-of-token.ts'
import { CONFIRMED_MS } from './sessions/session-life.ts'
import type { Visitor } from './sessions/visitor.ts'
import { hashToken } from './token.ts'

const askerOf = ({ sessionToken = '' }: Visitor) => ({ purpose: 'confirm', boundTo: hashToken(sessionToken) }) as const

/** Of whom a confirmation is asked: of everybody, or of accounts with a second factor, where the password is asked for anyway. */
export type Confirmed = true | 'where a factor is'

/** Whether somebody has to show once more who they are. */
export async function mustConfirm(
  context: Context,
  { actor, confirmedAt }: Pick<Holder, 'actor' | 'confirmedAt'>,
  of: Confirmed,
): Promise<boolean> {
  if (confirmedAt && context.clock().getTime() - confirmedAt.getTime() < CONFIRMED_MS) return false
  return of === true || hasFactor(await readFactors(context.db, actor.accountId))
}

/** With what somebody can confirm who they are, and until when they have: a factor where there is one, else the password. */
export async function findConfirmation(
  context: Context,
  { accountId }: Actor,
  { sessionToken = '' }: Visitor,
): Promise<Confirmation> {
  const factors = await readFactors(context.db, accountId)
  const session = await readSession(context.db, hashToken(sessionToken))
  const password = !hasFactor(factors) && (await readPasswordHash(context.db, accountId)) !== null
  const until = session?.confirmedAt && new Date(session.confirmedAt.getTime() + CONFIRMED_MS)
  return { ...factors, password, confirmedUntil: until && until > context.clock() ? until.toISOString() : null }
}

/** What a browser is to have a passkey sign, to confirm who one is. */
export const askToConfirmByPasskey = (
  context: Context,
  actor: Actor,
  visitor: Visitor,
  site: Site | null,
): Promise<PasskeyRequest> => askPasskey(context, site, askerOf(visitor), actor.accountId)

/**
 * Somebody who is signed in proves once more who they are, before what cannot be undone. It holds for this session and ten
 * minutes. An account with a second factor gives that, and its password is not enough; one without gives the password.
 * Throws invalid for a wrong one, TooManyRequests where too many came before.
 */
export async function confirmIdentity(
  context: Context,
  actor: Actor,
  given: ConfirmationBody,
  { visitor, site }: { visitor: Visitor; site: Site | null },
): Promise<Confirmation> {
  const proof =
    'password' in given
      ? await byPassword(context, actor, given.password, visitor)
      : await bySecondFactor(context, actor, given, { visitor, site })
  await recorded(context, actor, async (tx, note) => {
    if (!(await proof.takeUp(tx))) throw usedMeanwhile()
    await passAttempt(tx, proof.counters)
    await confirmSession(tx, hashToken(visitor.sessionToken ?? ''), context.clock())
    note({
      action: 'session.confirmed',
      subject: { kind: 'account', id: actor.accountId },
      after: { by: proof.way },
    })
  })
  return findConfirmation(context, actor, visitor)
}

async function byPassword(context: Context, actor: Actor, password: string, visitor: Visitor) {
  if (hasFactor(await readFactors(context.db, actor.accountId))) {
    throw invalid(
      'factor-needed',
      '/password',
      'This account has a second factor. Give that; the password is not enough.',
    )
  }
  const { counters } = await requirePresentPassword(context, actor, visitor, password, '/password')
  return { way: 'password', counters, takeUp: async () => true }
}

async function bySecondFactor(
  context: Context,
  actor: Actor,
  given: Exclude<ConfirmationBody, { password: string }>,
  { visitor, site }: { visitor: Visitor; site: Site | null },
) {
  const counters: readonly Counter[] = [byFactor(actor.accountId)]
  await takeAttempt(context, counters, 'codes')
  const fitting = await fittingFactor(context, actor.accountId, given, { asker: askerOf(visitor), site })
  if (!fitting) {
    await recorded(context, actor, async (_tx, note) => {
      note({ action: 'session.factor-refused', subject: { kind: 'account', id: actor.accountId } })
    })
    throw wrongFactor(given)
  }
  return { ...fitting, counters }
}

const usedMeanwhile = (): AppError =>
  conflict('used-meanwhile', 'This was used already. Wait for the next code; each is good once.')
