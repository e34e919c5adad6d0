import type { Transaction } from '../../../db/client.ts'
import { keepDevice } from '../../db/known-devices.db.ts'
import { deleteOldestSessions, deleteSession, insertSession } from '../../db/sessions.db.ts'
import { hashToken, newToken } from '../token.ts'
import { deviceHash } from './device-hash.ts'
import { deviceName } from './device-name.ts'
import { coarseNetwork } from './network.ts'
import type { Visitor } from './visitor.ts'

/** An account has no more sessions, nor devices it is known on, than this; the longest unused give way. */
const MOST_SESSIONS = 20
const MOST_DEVICES = 20

/** What a browser is given to keep. */
export interface Keys {
  readonly sessionToken: string
  /** Null: it keeps the one it has. */
  readonly deviceToken: string | null
}

/**
 * Opens a session under a new token, whatever token the browser came with; that one ends. The device is known from now on,
 * where a password was right on it: who comes back from a provider shows no cookie that tells which device it is.
 */
export async function openSession(
  tx: Transaction,
  accountId: string,
  visitor: Visitor,
  {
    now,
    confirmedAt,
    onlyEnrols,
    knowsDevice = true,
  }: { now: Date; confirmedAt: Date | null; onlyEnrols: boolean; knowsDevice?: boolean },
): Promise<Keys> {
  if (visitor.sessionToken !== undefined) await deleteSession(tx, hashToken(visitor.sessionToken))
  const sessionToken = newToken()
  await insertSession(tx, {
    tokenHash: hashToken(sessionToken),
    accountId,
    createdAt: now,
    network: coarseNetwork(visitor.address),
    device: deviceName(visitor.userAgent),
    confirmedAt,
    onlyEnrols,
  })
  await deleteOldestSessions(tx, accountId, MOST_SESSIONS)
  if (!knowsDevice) return { sessionToken, deviceToken: null }
  const deviceToken = visitor.deviceToken ?? newToken()
  await keepDevice(tx, deviceHash(deviceToken, accountId), accountId, now, MOST_DEVICES)
  return { sessionToken, deviceToken }
}
