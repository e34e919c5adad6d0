import type { Context } from '../../../context/context.ts'
import type { PasskeyBody, PasskeyCreation } from '../../../contract/accounts/factors.ts'
import { isDuplicate } from '../../../db/database-errors.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { conflict, invalid, notFound } from '../../../errors.ts'
import { deletePasskey, insertPasskey, listPasskeys } from '../../db/passkeys.db.ts'
import type { Visitor } from '../sessions/visitor.ts'
import { hashToken } from '../token.ts'
import { addFactor, removeFactor } from './own-factors.ts'
import { CHALLENGE_MS, newChallenge, takeChallenge } from './passkey-challenge.ts'
import { requireSite, type Site } from './site.ts'

const MOST_PASSKEYS = 10

const askerOf = ({ sessionToken = '' }: Visitor) => ({ purpose: 'add', boundTo: hashToken(sessionToken) }) as const

/** What a browser is to make a passkey of. */
export async function beginPasskey(
  context: Context,
  { accountId, name }: Actor,
  visitor: Visitor,
  site: Site | null,
): Promise<PasskeyCreation> {
  const { host } = requireSite(site)
  const present = await listPasskeys(context.db, accountId)
  if (present.length >= MOST_PASSKEYS) throw tooMany()
  const { generateRegistrationOptions } = await import('@simplewebauthn/server')
  const options = await generateRegistrationOptions({
    rpName: 'Reviewstand',
    rpID: host,
    userName: name,
    userDisplayName: name,
    userID: new Uint8Array(Buffer.from(accountId.replaceAll('-', ''), 'hex')),
    challenge: await newChallenge(context, askerOf(visitor)),
  })
  return {
    challenge: options.challenge,
    rp: { id: host, name: options.rp.name },
    user: options.user,
    pubKeyCredParams: options.pubKeyCredParams,
    timeout: CHALLENGE_MS,
    attestation: 'none',
    excludeCredentials: present.map(({ credentialId, transports }) => ({
      id: credentialId.toString('base64url'),
      type: 'public-key',
      transports,
    })),
    authenticatorSelection: { residentKey: 'preferred', userVerification: 'preferred' },
  }
}

/** Adds the passkey that a browser made. Out: recovery codes where it is the first factor. */
export async function addPasskey(
  context: Context,
  actor: Actor,
  body: PasskeyBody,
  { visitor, site }: { visitor: Visitor; site: Site | null },
): Promise<{ codes: string[] | null }> {
  const { credential, transports } = await verified(context, body, { visitor, site })
  try {
    return await addFactor(context, actor, visitor, async (tx, note) => {
      if ((await listPasskeys(tx, actor.accountId)).length >= MOST_PASSKEYS) throw tooMany()
      await insertPasskey(tx, {
        accountId: actor.accountId,
        credentialId: Buffer.from(credential.id, 'base64url'),
        publicKey: credential.publicKey,
        signCount: credential.counter,
        transports,
        name: body.name,
        createdAt: context.clock(),
      })
      const subject = { kind: 'account', id: actor.accountId }
      note({ action: 'account.passkey-added', subject, after: { name: body.name } })
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw conflict('passkey-known', `There is this passkey, or one called ${body.name}, already. Choose another name.`)
  }
}

async function verified(
  context: Context,
  { id, clientDataJSON, attestationObject, transports }: PasskeyBody,
  { visitor, site }: { visitor: Visitor; site: Site | null },
) {
  const { origin, host } = requireSite(site)
  const expectedChallenge = await takeChallenge(context, askerOf(visitor), clientDataJSON)
  if (expectedChallenge === null) throw notMade()
  const { verifyRegistrationResponse } = await import('@simplewebauthn/server')
  try {
    const { registrationInfo } = await verifyRegistrationResponse({
      response: {
        id,
        rawId: id,
        type: 'public-key',
        response: { clientDataJSON, attestationObject },
        clientExtensionResults: {},
      },
      expectedChallenge,
      expectedOrigin: origin,
      expectedRPID: host,
      requireUserVerification: false,
    })
    if (registrationInfo) return { credential: registrationInfo.credential, transports }
  } catch {
    // The library throws for every way in which an answer is not right.
  }
  throw notMade()
}

/** Takes one of one's own passkeys away; those of others are not found. */
export const removePasskey = (context: Context, actor: Actor, id: string): Promise<void> =>
  removeFactor(context, actor, async (tx, note) => {
    const name = await deletePasskey(tx, actor.accountId, id)
    if (name === null) throw notFound('passkey')
    note({ action: 'account.passkey-removed', subject: { kind: 'account', id: actor.accountId }, before: { name } })
  })

const notMade = () =>
  invalid('wrong-passkey', '/attestationObject', 'The passkey was not made for this page, or too late. Add it again.')

const tooMany = () =>
  conflict(
    'too-many-passkeys',
    `You have ${MOST_PASSKEYS} passkeys, the most there may be. Take away one you no longer use.`,
  )
