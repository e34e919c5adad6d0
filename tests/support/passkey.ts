import { createHash, generateKeyPairSync, randomBytes, sign } from 'node:crypto'
import { isoCBOR } from '@simplewebauthn/server/helpers'
import type {
  PasskeyBody,
  PasskeyCreation,
  PasskeyProof,
  PasskeyRequest,
} from '../../server/contract/accounts/factors.ts'

const PRESENT = 0x01
const VERIFIED = 0x04
const ATTESTED = 0x40

interface Signing {
  readonly origin?: string
  readonly host?: string
  readonly verified?: boolean
  readonly count?: number
  readonly challenge?: string
  readonly type?: string
}

const sha256 = (data: string | Buffer): Buffer => createHash('sha256').update(data).digest()
const base64url = (data: string | Buffer | Uint8Array): string => Buffer.from(data).toString('base64url')

/** A passkey of ES256 as a device makes and uses it (WebAuthn level 2), without a device; and one that lies where it is told to. */
export function createPasskey(site: { origin: string; host: string }) {
  const { publicKey, privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const credentialId = randomBytes(32)
  const id = base64url(credentialId)
  let counted = 0

  const clientData = (type: string, challenge: string, origin: string) =>
    Buffer.from(JSON.stringify({ type, challenge, origin, crossOrigin: false }))

  const head = (host: string, flags: number, count: number) => {
    const counter = Buffer.alloc(4)
    counter.writeUInt32BE(count)
    return Buffer.concat([sha256(host), Buffer.from([flags]), counter])
  }

  function coseKey(): Buffer {
    const { x, y } = publicKey.export({ format: 'jwk' })
    const key = new Map<number, number | Uint8Array>([
      [1, 2],
      [3, -7],
      [-1, 1],
      [-2, new Uint8Array(Buffer.from(x!, 'base64url'))],
      [-3, new Uint8Array(Buffer.from(y!, 'base64url'))],
    ])
    return Buffer.from(isoCBOR.encode(key))
  }

  return {
    id,
    /** What a browser answers when it is to make this passkey. */
    made(
      { challenge }: Pick<PasskeyCreation, 'challenge'>,
      name = 'Phone',
      { origin = site.origin, host = site.host, type = 'webauthn.create' }: Signing = {},
    ): PasskeyBody {
      const length = Buffer.alloc(2)
      length.writeUInt16BE(credentialId.length)
      const authData = Buffer.concat([
        head(host, PRESENT | VERIFIED | ATTESTED, 0),
        Buffer.alloc(16),
        length,
        credentialId,
        coseKey(),
      ])
      const attestation = new Map<string, unknown>([
        ['fmt', 'none'],
        ['attStmt', new Map()],
        ['authData', new Uint8Array(authData)],
      ])
      return {
        name,
        id,
        clientDataJSON: base64url(clientData(type, challenge, origin)),
        attestationObject: base64url(isoCBOR.encode(attestation as never)),
        transports: ['internal'],
      }
    },
    /** What a browser answers when it is to sign with it. */
    signed({ challenge: asked }: Pick<PasskeyRequest, 'challenge'>, signing: Signing = {}): PasskeyProof {
      const { origin = site.origin, host = site.host, verified = true, challenge = asked } = signing
      counted = signing.count ?? counted + 1
      const authenticatorData = head(host, PRESENT | (verified ? VERIFIED : 0), counted)
      const client = clientData(signing.type ?? 'webauthn.get', challenge, origin)
      const signature = sign('sha256', Buffer.concat([authenticatorData, sha256(client)]), privateKey)
      return {
        id,
        clientDataJSON: base64url(client),
        authenticatorData: base64url(authenticatorData),
        signature: base64url(signature),
      }
    },
  }
}
