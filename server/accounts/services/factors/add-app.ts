import type { Context } from '../../../context/context.ts'
import type { NewApp } from '../../../contract/accounts/factors.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { conflict, invalid } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { lockAccount } from '../../db/account-changes.db.ts'
import { confirmApp, insertWaitingApp, readApp } from '../../db/authenticator-apps.db.ts'
import { byFactor, passAttempt, takeAttempt } from '../sessions/attempts.ts'
import type { Visitor } from '../sessions/visitor.ts'
import { sealApp, unsealApp } from './app-secret.ts'
import { addFactor } from './own-factors.ts'
import { appAddress, newAppSecret, stepOfCode } from './time-code.ts'

/** Makes the key of a new authenticator app, told this once. It counts from its first code on; one there is counts until then. */
export async function beginApp(context: Context, actor: Actor): Promise<NewApp> {
  const secret = newAppSecret()
  const sealed = sealApp(context, actor.accountId, secret)
  await recorded(context, actor, async (tx) => {
    await lockAccount(tx, actor.accountId)
    await insertWaitingApp(tx, actor.accountId, sealed, context.clock())
  })
  return { key: secret, address: appAddress(secret, actor.name) }
}

/**
 * Takes the first code of a new app, which counts from then on, in place of the one before. Out: recovery codes where it is
 * the first factor. Throws invalid for a wrong code, conflict where no app waits for one.
 */
export async function confirmNewApp(
  context: Context,
  actor: Actor,
  code: string,
  visitor: Visitor,
): Promise<{ codes: string[] | null }> {
  const app = await readApp(context.db, actor.accountId, 'waits')
  if (!app) throw conflict('no-app', 'No app waits for its first code. Begin again.')
  const counters = [byFactor(actor.accountId)]
  await takeAttempt(context, counters, 'codes')
  const now = context.clock()
  const step = stepOfCode(unsealApp(context, actor.accountId, app.sealedSecret), code.replaceAll(/\s/g, ''), now)
  if (step === null) {
    const detail = 'This is not what the app should show now. Type its present code; if it stays wrong, set the clock.'
    throw invalid('wrong-code', '/code', detail)
  }
  return addFactor(context, actor, visitor, async (tx, note) => {
    if (!(await confirmApp(tx, actor.accountId, { id: app.id, step, now }))) {
      throw conflict('no-app', 'Another app was begun in the meantime. Begin again.')
    }
    await passAttempt(tx, counters)
    note({ action: 'account.app-added', subject: { kind: 'account', id: actor.accountId } })
  })
}
