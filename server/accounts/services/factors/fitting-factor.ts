import type { Context } from '../../../context/context.ts'
import type { FactorBody } from '../../../contract/accounts/factors.ts'
import type { Transaction } from '../../../db/client.ts'
import { type AppError, invalid } from '../../../errors.ts'
import { readApp, takeUpStep } from '../../db/authenticator-apps.db.ts'
import { touchPasskey } from '../../db/passkeys.db.ts'
import { readRecoveryCode, takeUpRecoveryCode } from '../../db/recovery-codes.db.ts'
import { passwordFits } from '../password.ts'
import { unsealApp } from './app-secret.ts'
import type { Asker } from './passkey-challenge.ts'
import { checkPasskey } from './passkey-proof.ts'
import { readRecoveryCodeTyped } from './recovery-codes.ts'
import type { Site } from './site.ts'
import { stepOfCode } from './time-code.ts'

/** A second factor that was given and is right. */
export interface Fitting {
  /** What it was, for the record. */
  readonly way: 'authenticator app' | 'recovery code' | 'passkey'
  /** Uses it up, so that nobody gives it again. Out: false where somebody did meanwhile. */
  takeUp(tx: Transaction): Promise<boolean>
}

/** Whether what was given is a second factor of the account. Out: null where it is not; the attempt was counted before. */
export async function fittingFactor(
  context: Context,
  accountId: string,
  given: FactorBody,
  { asker, site }: { asker: Asker; site: Site | null },
): Promise<Fitting | null> {
  if ('passkey' in given) {
    const checked = await checkPasskey(context, site, asker, { proof: given.passkey, accountId })
    return checked && fittingPasskey(context, checked)
  }
  const digits = given.code.replaceAll(/\s/g, '')
  return /^\d{6}$/.test(digits)
    ? fittingApp(context, accountId, digits)
    : fittingRecoveryCode(context, accountId, given.code)
}

/** A passkey that has signed as it should. */
export const fittingPasskey = (
  context: Context,
  { passkey, signCount }: NonNullable<Awaited<ReturnType<typeof checkPasskey>>>,
): Fitting => ({
  way: 'passkey',
  takeUp: (tx) => touchPasskey(tx, { id: passkey.id, signCount, now: context.clock() }),
})

async function fittingApp(context: Context, accountId: string, digits: string): Promise<Fitting | null> {
  const app = await readApp(context.db, accountId, 'counts')
  if (!app) return null
  const secret = unsealApp(context, accountId, app.sealedSecret)
  const now = context.clock()
  const step = stepOfCode(secret, digits, now)
  if (step === null || step <= app.lastStep) return null
  return { way: 'authenticator app', takeUp: (tx) => takeUpStep(tx, app.id, step, now) }
}

async function fittingRecoveryCode(context: Context, accountId: string, typed: string): Promise<Fitting | null> {
  const read = readRecoveryCodeTyped(typed)
  const hash = read && (await readRecoveryCode(context.db, accountId, read.number))
  if (!read || !(await passwordFits(hash, read.code)) || hash === null) return null
  return { way: 'recovery code', takeUp: (tx) => takeUpRecoveryCode(tx, accountId, hash, context.clock()) }
}

/** A factor that was given and is not right; or is right and was given before. */
export const wrongFactor = (given: FactorBody): AppError =>
  'passkey' in given
    ? invalid('wrong-passkey', '/passkey', 'This passkey was not taken. Try it again, or use another way.')
    : invalid(
        'wrong-code',
        '/code',
        'This code is not right, or was used already. Wait for the next one in the app; each is good once.',
      )
