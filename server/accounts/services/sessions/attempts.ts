import type { Context } from '../../../context/context.ts'
import type { Transaction } from '../../../db/client.ts'
import { inTransaction } from '../../../db/transaction.ts'
import { type AttemptLimits, nextAttempt } from '../../../domain/access/next-attempt.ts'
import { TooManyRequests } from '../../../errors.ts'
import { clearAttempts, giveBackAttempt, lockAttempts, saveAttempts } from '../../db/password-attempts.db.ts'

/** What wrong passwords are counted by. */
export interface Counter {
  readonly subject: string
  readonly limits: AttemptLimits
  /** A right password clears it; otherwise only the attempt itself is taken back. */
  readonly isCleared: boolean
}

const HALF_HOUR = 1800

/** Per account, or per device it is known on: a dozen an hour at the most, however many addresses they come from. */
const ONE_PERSON: AttemptLimits = { free: 10, longestSeconds: 300, forgivenInSeconds: HALF_HOUR }
/** Per address, behind which a whole unit may sit. */
const MANY_PEOPLE: AttemptLimits = { free: 100, longestSeconds: 300, forgivenInSeconds: 30 }

/** By account (its id, or the name where there is none), from devices it is not known on. */
export const byAccount = (account: string): Counter => ({
  subject: `account ${account}`,
  limits: ONE_PERSON,
  isCleared: true,
})

/** By device an account is known on: attempts from elsewhere do not count here. */
export const byDevice = (deviceTokenHash: Buffer): Counter => ({
  subject: `device ${deviceTokenHash.toString('hex')}`,
  limits: ONE_PERSON,
  isCleared: true,
})

/** By session, for the present password asked for when it is changed. */
export const bySession = (tokenHash: Buffer): Counter => ({
  subject: `session ${tokenHash.toString('hex')}`,
  limits: ONE_PERSON,
  isCleared: true,
})

/** By account, for second factors: they are asked for after a password, so nobody else makes its owner wait. */
export const byFactor = (accountId: string): Counter => ({
  subject: `factor ${accountId}`,
  limits: ONE_PERSON,
  isCleared: true,
})

export const byNetwork = (network: string): Counter => ({
  subject: `network ${network}`,
  limits: MANY_PEOPLE,
  isCleared: false,
})

/**
 * Counts an attempt as wrong before the password, or the second factor, is looked at, so that many at once gain nothing. Throws TooManyRequests, and
 * counts nothing, where one of the counters says to wait.
 */
export async function takeAttempt(
  context: Context,
  counters: readonly Counter[],
  what: 'passwords' | 'codes' = 'passwords',
): Promise<void> {
  const now = context.clock()
  await inTransaction(context.db, async (tx) => {
    for (const { subject, limits } of counters) {
      const next = nextAttempt(await lockAttempts(tx, subject, now), limits, now.getTime())
      if ('waitSeconds' in next) throw mustWait(next.waitSeconds, what)
      await saveAttempts(tx, subject, next.attempts)
    }
  })
}

/** The password was right: the counters forget the attempt. */
export async function passAttempt(tx: Transaction, counters: readonly Counter[]): Promise<void> {
  for (const { subject, isCleared } of counters)
    await (isCleared ? clearAttempts(tx, subject) : giveBackAttempt(tx, subject))
}

function mustWait(seconds: number, what: 'passwords' | 'codes'): TooManyRequests {
  const span =
    seconds === 1 ? 'one second' : seconds < 120 ? `${seconds} seconds` : `${Math.ceil(seconds / 60)} minutes`
  const known = '; a device you signed in with before need not wait for others.'
  return new TooManyRequests(
    `too-many-wrong-${what}`,
    `There were too many wrong ${what}. Wait ${span}, then try again${what === 'passwords' ? known : '.'}`,
    seconds,
  )
}
