import type { Context } from '../../../context/context.ts'
import type { PasskeyProof, PasskeyRequest } from '../../../contract/accounts/factors.ts'
import { listPasskeys, readPasskey, type StoredPasskey } from '../../db/passkeys.db.ts'
import { type Asker, CHALLENGE_MS, newChallenge, takeChallenge } from './passkey-challenge.ts'
import { requireSite, type Site } from './site.ts'

/** A passkey alone stands for password and factor: its owner must have been verified by it (fingerprint, face, PIN). */
const isAlone = ({ purpose }: Asker): boolean => purpose === 'alone'

/** What a browser is to have signed. In: whose passkeys; null: of anybody whom a passkey knows. */
export async function askPasskey(
  context: Context,
  site: Site | null,
  asker: Asker,
  accountId: string | null,
): Promise<PasskeyRequest> {
  const { host } = requireSite(site)
  const userVerification = isAlone(asker) ? 'required' : 'preferred'
  const passkeys = accountId === null ? [] : await listPasskeys(context.db, accountId)
  const { generateAuthenticationOptions } = await import('@simplewebauthn/server')
  const { challenge } = await generateAuthenticationOptions({
    rpID: host,
    challenge: await newChallenge(context, asker),
    userVerification,
  })
  return {
    challenge,
    rpId: host,
    timeout: CHALLENGE_MS,
    userVerification,
    allowCredentials: passkeys.map(({ credentialId, transports }) => ({
      id: credentialId.toString('base64url'),
      type: 'public-key',
      transports,
    })),
  }
}

/**
 * The passkey that signed what it was asked to, and its new count. Out: null where it is not known or another account’s,
 * or where signature, challenge, place or verification are not as they should be.
 */
export async function checkPasskey(
  context: Context,
  site: Site | null,
  asker: Asker,
  { proof, accountId }: { proof: PasskeyProof; accountId: string | null },
): Promise<{ passkey: StoredPasskey; signCount: number } | null> {
  const { origin, host } = requireSite(site)
  const { id, ...response } = proof
  const expectedChallenge = await takeChallenge(context, asker, response.clientDataJSON)
  if (expectedChallenge === null) return null
  const passkey = await readPasskey(context.db, Buffer.from(id, 'base64url'))
  if (!passkey || (accountId !== null && passkey.accountId !== accountId)) return null
  const { verifyAuthenticationResponse } = await import('@simplewebauthn/server')
  try {
    const { verified, authenticationInfo } = await verifyAuthenticationResponse({
      response: { id, rawId: id, type: 'public-key', response, clientExtensionResults: {} },
      expectedChallenge,
      expectedOrigin: origin,
      expectedRPID: host,
      requireUserVerification: isAlone(asker),
      credential: { id, publicKey: passkey.publicKey, counter: passkey.signCount },
    })
    return verified ? { passkey, signCount: authenticationInfo.newCounter } : null
  } catch {
    return null // The library throws for every way in which an answer is not right.
  }
}
