import type { Session } from '#contract/accounts/session.ts'
import { deviceZone, keepUnitZone, unitZone } from '../../words/unit-zone.ts'
import { notifyChanged } from './changes.ts'
import { deviceDatabase } from './database.ts'

const KEY = 'last'

/**
 * Whose device this is: who signed in here last and has not signed out. For them the app opens without a network, to
 * grade; so it is kept as durably as the marks, and a phone whose battery died knows it again.
 */
export const deviceAccount = async (): Promise<Session | null> => {
  try {
    const account = (await (await deviceDatabase()).get('account', KEY)) ?? null
    // Without the server this is who says by whose clock it is; with it the session has said so already.
    if (account && unitZone() === deviceZone()) keepUnitZone(account.zone)
    return account
  } catch {
    return null
  }
}

export const rememberAccount = async (signedIn: Session): Promise<void> => {
  const session: Session = { ...signedIn, onlyEnrols: false, factorReset: null }
  if (JSON.stringify(await deviceAccount()) === JSON.stringify(session)) return
  const transaction = (await deviceDatabase()).transaction('account', 'readwrite', { durability: 'strict' })
  await Promise.all([transaction.store.put(session, KEY), transaction.done])
  notifyChanged()
}

/** Whoever signs out is not let in again without the server; what they have not sent stays under their account. */
export const clearDeviceAccount = async (): Promise<void> => {
  await (await deviceDatabase()).delete('account', KEY)
  notifyChanged()
}
