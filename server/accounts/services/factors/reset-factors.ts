import type { Context } from '../../../context/context.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { conflict } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { readAccountByName } from '../../db/accounts.db.ts'
import { deleteApps } from '../../db/authenticator-apps.db.ts'
import { saveFactorReset } from '../../db/factors.db.ts'
import { deletePasskeysOf } from '../../db/passkeys.db.ts'
import { clearAttempts } from '../../db/password-attempts.db.ts'
import { deleteRecoveryCodes } from '../../db/recovery-codes.db.ts'
import { deleteSessionsOf } from '../../db/sessions.db.ts'
import { changeAccount } from '../administration/change-account.ts'
import { byFactor } from '../sessions/attempts.ts'

interface Taken {
  readonly app: boolean
  readonly passkeys: number
  readonly sessionsEnded: number
}

/** Takes all second factors of somebody else away, for a phone that is lost; they are told when they sign in next. */
export async function resetFactors(
  context: Context,
  actor: Actor,
  id: string,
  reason: string,
): Promise<{ id: string }> {
  return changeAccount(context, actor, id, async (tx, note) => {
    if (id === actor.accountId) {
      throw conflict(
        'own-account',
        'Your own second factor is reset by another administrator, or by npm run reset-factor.',
      )
    }
    const after = await takeAway(tx, id, { at: context.clock(), by: actor.name, reason })
    note({ action: 'account.factors-reset', subject: { kind: 'account', id }, after, reason })
    return { id }
  })
}

/**
 * The same for whoever runs the server: the last administrator may have lost the phone. Out: what was taken away; null where
 * there is no such account, or it is disabled.
 */
export async function resetFactorsOnMachine(
  context: Pick<Context, 'db' | 'clock'>,
  name: string,
): Promise<Taken | null> {
  return recorded(context, null, async (tx, note) => {
    const account = await readAccountByName(tx, name)
    if (!account || account.isDisabled) return null
    const reason = 'By command on the server'
    const after = await takeAway(tx, account.accountId, { at: context.clock(), by: 'the server', reason })
    note({ action: 'account.factors-reset', subject: { kind: 'account', id: account.accountId }, after, reason })
    return after
  })
}

async function takeAway(tx: Transaction, id: string, reset: { at: Date; by: string; reason: string }): Promise<Taken> {
  const app = await deleteApps(tx, id)
  const passkeys = await deletePasskeysOf(tx, id)
  await deleteRecoveryCodes(tx, id)
  await clearAttempts(tx, byFactor(id).subject)
  await saveFactorReset(tx, id, reset)
  return { app, passkeys, sessionsEnded: await deleteSessionsOf(tx, id) }
}
