import type { Context } from '../../../context/context.ts'
import type { FactorBody, PasskeyProof, PasskeyRequest } from '../../../contract/accounts/factors.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { AppError } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockEnabledAccount, readAccount, type StoredAccount } from '../../db/accounts.db.ts'
import { readHalf, type StoredHalf, takeUpHalf } from '../../db/half-sign-ins.db.ts'
import { type Fitting, fittingFactor, fittingPasskey, wrongFactor } from '../factors/fitting-factor.ts'
import { askPasskey, checkPasskey } from '../factors/passkey-proof.ts'
import type { Site } from '../factors/site.ts'
import { hashToken } from '../token.ts'
import { byFactor, byNetwork, type Counter, passAttempt, takeAttempt } from './attempts.ts'
import { networkOf } from './network.ts'
import { type Keys, openSession } from './open-session.ts'
import { toActor } from './to-actor.ts'
import type { Visitor } from './visitor.ts'

type Opened = Keys & { actor: Actor }

/**
 * The second step of a sign-in: opens the session where the factor is right, and the sign-in halfway is used up. Throws
 * invalid for a wrong factor, not-signed-in where no sign-in is halfway, TooManyRequests where too many wrong ones came before.
 */
export async function finishSignIn(
  context: Context,
  given: FactorBody,
  visitor: Visitor,
  site: Site | null,
): Promise<Opened> {
  const half = await halfOf(context, visitor)
  const counters = [byNetwork(networkOf(visitor.address)), byFactor(half.accountId)]
  await takeAttempt(context, counters, 'codes')
  const asker = { purpose: 'second', boundTo: half.tokenHash } as const
  const fitting = await fittingFactor(context, half.accountId, given, { asker, site })
  if (!fitting) {
    await noteRefusal(context, half.accountId, visitor)
    throw wrongFactor(given)
  }
  return open(context, { account: half, fitting, how: half.how, counters, visitor }, async (tx) => {
    if (!(await takeUpHalf(tx, half.tokenHash))) throw beginAgain()
  })
}

/** What a browser is to have a passkey sign as the second step. */
export async function askForPasskey(context: Context, visitor: Visitor, site: Site | null): Promise<PasskeyRequest> {
  const { tokenHash, accountId } = await halfOf(context, visitor)
  return askPasskey(context, site, { purpose: 'second', boundTo: tokenHash }, accountId)
}

const ALONE = { purpose: 'alone', boundTo: null } as const

/** What a browser is to have a passkey sign that stands for name, password and factor. */
export const askForPasskeyAlone = (context: Context, site: Site | null): Promise<PasskeyRequest> =>
  askPasskey(context, site, ALONE, null)

/** Signs in by a passkey alone, which must have verified its owner. */
export async function signInByPasskey(
  context: Context,
  proof: PasskeyProof,
  visitor: Visitor,
  site: Site | null,
): Promise<Opened> {
  const counters = [byNetwork(networkOf(visitor.address))]
  await takeAttempt(context, counters, 'codes')
  const checked = await checkPasskey(context, site, ALONE, { proof, accountId: null })
  const account = checked && (await readAccount(context.db, checked.passkey.accountId))
  if (!checked || !account) {
    await noteRefusal(context, checked?.passkey.accountId ?? null, visitor)
    throw new AppError(
      'not-signed-in',
      'wrong-passkey',
      'This passkey is not known here. Sign in by name and password.',
    )
  }
  return open(context, { account, fitting: fittingPasskey(context, checked), how: null, counters, visitor })
}

async function halfOf(context: Context, { halfToken }: Visitor): Promise<StoredHalf & { tokenHash: Buffer }> {
  if (halfToken === undefined) throw beginAgain()
  const tokenHash = hashToken(halfToken)
  const half = await readHalf(context.db, tokenHash, context.clock())
  if (!half) throw beginAgain()
  return { ...half, tokenHash }
}

interface Passed {
  readonly account: StoredAccount
  readonly fitting: Fitting
  /** How the first step was passed; null: there was none. */
  readonly how: string | null
  readonly counters: readonly Counter[]
  readonly visitor: Visitor
}

async function open(
  context: Context,
  { account, fitting, how, counters, visitor }: Passed,
  before: (tx: Parameters<Fitting['takeUp']>[0]) => Promise<void> = async () => {},
): Promise<Opened> {
  const actor = { ...toActor(account), address: visitor.address }
  const keys = await recorded(context, actor, async (tx, note) => {
    if (!(await lockEnabledAccount(tx, account.accountId))) throw beginAgain()
    await before(tx)
    if (!(await fitting.takeUp(tx))) throw usedMeanwhile()
    await passAttempt(tx, counters)
    const now = context.clock()
    const ways = how === null ? fitting.way : `${how}, ${fitting.way}`
    note({ action: 'session.opened', subject: { kind: 'account', id: account.accountId }, after: { by: ways } })
    return openSession(tx, account.accountId, visitor, { now, confirmedAt: now, onlyEnrols: false })
  })
  return { ...keys, actor }
}

async function noteRefusal(context: Context, accountId: string | null, { address }: Visitor): Promise<void> {
  await recorded(context, { accountId: null, name: null, address, soldierId: null }, async (_tx, note) => {
    note({ action: 'session.factor-refused', subject: { kind: 'account', id: accountId } })
  })
}

const beginAgain = (): AppError =>
  new AppError(
    'not-signed-in',
    'sign-in-again',
    'This took too long, or was done already. Sign in again from the start.',
  )

const usedMeanwhile = (): AppError =>
  new AppError('invalid', 'wrong-code', 'This was used already. Wait for the next code; each is good once.')
