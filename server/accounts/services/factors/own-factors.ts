import type { Context } from '../../../context/context.ts'
import { today } from '../../../context/today.ts'
import type { OwnFactors } from '../../../contract/accounts/factors.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { factorRequiredFrom, needsFactor } from '../../../domain/access/factor-rules.ts'
import { conflict } from '../../../errors.ts'
import { type Note, recorded } from '../../../record/services/recorded.ts'
import { lockAccount } from '../../db/account-changes.db.ts'
import { deleteApps, readApp } from '../../db/authenticator-apps.db.ts'
import { hasFactor, readFactorRules, readFactors, saveFactorReset } from '../../db/factors.db.ts'
import { listPasskeys } from '../../db/passkeys.db.ts'
import { deleteRecoveryCodes, replaceRecoveryCodes } from '../../db/recovery-codes.db.ts'
import { raiseSession } from '../../db/sessions.db.ts'
import type { Visitor } from '../sessions/visitor.ts'
import { hashToken } from '../token.ts'
import { newRecoveryCodes } from './recovery-codes.ts'
import type { Site } from './site.ts'

/** One's second factors, and whether one needs any. */
export async function findOwnFactors(context: Context, actor: Actor, site: Site | null): Promise<OwnFactors> {
  const { db } = context
  const app = await readApp(db, actor.accountId, 'counts')
  const passkeys = await listPasskeys(db, actor.accountId)
  const { recoveryCodes } = await readFactors(db, actor.accountId)
  return {
    app: app && { createdAt: app.createdAt.toISOString(), lastUsedAt: app.lastUsedAt?.toISOString() ?? null },
    passkeys: passkeys.map(({ id, name, createdAt, lastUsedAt }) => ({
      id,
      name,
      createdAt: createdAt.toISOString(),
      lastUsedAt: lastUsedAt?.toISOString() ?? null,
    })),
    recoveryCodes,
    requiredFrom: factorRequiredFrom(actor.roles, await readFactorRules(db)),
    passkeysWork: site !== null,
  }
}

/**
 * Adds a factor: stores it, raises the session, and with the first one makes recovery codes. Out: those, told this once;
 * null where there are some.
 */
export async function addFactor(
  context: Context,
  actor: Actor,
  { sessionToken = '' }: Visitor,
  store: (tx: Transaction, note: Note) => Promise<void>,
): Promise<{ codes: string[] | null }> {
  const made = hasFactor(await readFactors(context.db, actor.accountId)) ? null : await newRecoveryCodes()
  return recorded(context, actor, async (tx, note) => {
    await lockAccount(tx, actor.accountId)
    const isFirst = !hasFactor(await readFactors(tx, actor.accountId))
    await store(tx, note)
    await raiseSession(tx, actor.accountId, hashToken(sessionToken))
    if (!isFirst || !made) return { codes: null }
    await replaceRecoveryCodes(tx, actor.accountId, made.hashes, context.clock())
    return { codes: made.codes }
  })
}

/** Takes a factor away, and the recovery codes with the last one. Refuses the last one of an account that needs one. */
export async function removeFactor(
  context: Context,
  actor: Actor,
  remove: (tx: Transaction, note: Note) => Promise<void>,
): Promise<void> {
  await recorded(context, actor, async (tx, note) => {
    await lockAccount(tx, actor.accountId)
    await remove(tx, note)
    if (hasFactor(await readFactors(tx, actor.accountId))) return
    if (needsFactor(actor.roles, await readFactorRules(tx), await today(context))) throw neededStill()
    await deleteRecoveryCodes(tx, actor.accountId)
  })
}

/** Takes the authenticator app away. */
export const removeApp = (context: Context, actor: Actor): Promise<void> =>
  removeFactor(context, actor, async (tx, note) => {
    if (!(await deleteApps(tx, actor.accountId)))
      throw conflict('no-app', 'There is no authenticator app to take away.')
    note({ action: 'account.app-removed', subject: { kind: 'account', id: actor.accountId } })
  })

/** Makes ten new recovery codes, told this once; those before are good no longer. */
export async function makeRecoveryCodes(context: Context, actor: Actor): Promise<{ codes: string[] }> {
  const { codes, hashes } = await newRecoveryCodes()
  return recorded(context, actor, async (tx, note) => {
    await lockAccount(tx, actor.accountId)
    if (!hasFactor(await readFactors(tx, actor.accountId))) {
      throw conflict(
        'no-factor',
        'Recovery codes stand in for a second factor. Add an authenticator app or a passkey first.',
      )
    }
    await replaceRecoveryCodes(tx, actor.accountId, hashes, context.clock())
    note({ action: 'account.recovery-codes-made', subject: { kind: 'account', id: actor.accountId } })
    return { codes }
  })
}

/** The owner knows that their factors were reset. It is of the moment and leaves no trace; the reset itself is on record. */
export const knowOfReset = ({ db }: Context, { accountId }: Actor): Promise<void> =>
  saveFactorReset(db, accountId, null)

const neededStill = () =>
  conflict('factor-required', 'Your roles need a second factor, and this is the last one. Add another one first.')
