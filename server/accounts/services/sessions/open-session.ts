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
  readonly deviceToken: string
}

/** Opens a session under a new token, whatever token the browser came with; that one ends. The device is known from now on. */
export async function openSession(tx: Transaction, accountId: string, visitor: Visitor, now: Date): Promise<Keys> {
  if (visitor.sessionToken !== undefined) await deleteSession(tx, hashToken(visitor.sessionToken))
  const sessionToken = newToken()
  const deviceToken = visitor.deviceToken ?? newToken()
  await insertSession(tx, {
    tokenHash: hashToken(sessionToken),
    accountId,
    createdAt: now,
    network: coarseNetwork(visitor.address),
    device: deviceName(visitor.userAgent),
  })
  await deleteOldestSessions(tx, accountId, MOST_SESSIONS)
  await keepDevice(tx, deviceHash(deviceToken, accountId), accountId, now, MOST_DEVICES)
  return { sessionToken, deviceToken }
}
