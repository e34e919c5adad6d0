import { randomBytes } from 'node:crypto'
import type { Context } from '../../../context/context.ts'
import { type Challenge, insertChallenge, takeUpChallenge } from '../../db/passkey-challenges.db.ts'
import { hashToken } from '../token.ts'

/** So long somebody has for their fingerprint. */
export const CHALLENGE_MS = 5 * 60_000

/** Where a challenge is asked for: its purpose, and the hash of the token of the session or sign-in that asks. */
export type Asker = Pick<Challenge, 'purpose' | 'boundTo'>

/** Makes a challenge for whoever asks, good once and for five minutes. */
export async function newChallenge(context: Context, asker: Asker): Promise<Uint8Array<ArrayBuffer>> {
  const challenge = new Uint8Array(randomBytes(32))
  const now = context.clock()
  const hash = hashToken(Buffer.from(challenge).toString('base64url'))
  await insertChallenge(context.db, { ...asker, hash }, now, new Date(now.getTime() + CHALLENGE_MS))
  return challenge
}

/**
 * The challenge that a passkey signed, used up by it, whatever comes of the rest. In: what the browser says it signed.
 * Out: the challenge; null where it is none of ours, was used, has expired, or was made for something or somebody else.
 */
export async function takeChallenge(context: Context, asker: Asker, clientDataJSON: string): Promise<string | null> {
  const challenge = challengeIn(clientDataJSON)
  if (challenge === null) return null
  const used = await takeUpChallenge(context.db, { ...asker, hash: hashToken(challenge) }, context.clock())
  return used ? challenge : null
}

function challengeIn(clientDataJSON: string): string | null {
  try {
    const { challenge } = JSON.parse(Buffer.from(clientDataJSON, 'base64url').toString('utf8'))
    return typeof challenge === 'string' ? challenge : null
  } catch {
    return null
  }
}
