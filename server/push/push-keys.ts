import { createECDH, createPrivateKey, generateKeyPairSync, type KeyObject, sign } from 'node:crypto'

/** The unit's own key pair, by which push services know who sends (VAPID, RFC 8292). */
export interface PushKeys {
  /** The point on the curve, uncompressed, base64url. */
  readonly publicKey: string
  readonly privateKey: KeyObject
}

/** A new key pair as a JWK. */
export function newPushKey(): string {
  const { privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  return JSON.stringify(privateKey.export({ format: 'jwk' }))
}

/** Null: the text is no private JWK on P-256, or its public part is another key's. */
export function parsePushKey(text: string): PushKeys | null {
  try {
    const { kty, crv, x, y, d } = JSON.parse(text)
    if (crv !== 'P-256') return null
    const pair = createECDH('prime256v1')
    pair.setPrivateKey(d, 'base64url')
    const point = Buffer.concat([Buffer.from([4]), Buffer.from(x, 'base64url'), Buffer.from(y, 'base64url')])
    if (!pair.getPublicKey().equals(point)) return null
    const privateKey = createPrivateKey({ key: { kty, crv, x, y, d }, format: 'jwk' })
    return { publicKey: point.toString('base64url'), privateKey }
  } catch {
    return null
  }
}

/** A push service takes no token that is good for more than a day. */
const TOKEN_SECONDS = 12 * 60 * 60

/** The `Authorization` of a message to an endpoint: a token for its origin alone, signed ES256 (RFC 8292, RFC 7515). */
export function vapidAuthorization(keys: PushKeys, endpoint: string, contact: string, now: Date): string {
  const part = (content: object) => Buffer.from(JSON.stringify(content)).toString('base64url')
  const exp = Math.floor(now.getTime() / 1000) + TOKEN_SECONDS
  const claims = { aud: new URL(endpoint).origin, exp, sub: contact }
  const signed = `${part({ typ: 'JWT', alg: 'ES256' })}.${part(claims)}`
  const key = { key: keys.privateKey, dsaEncoding: 'ieee-p1363' as const }
  const signature = sign('sha256', Buffer.from(signed), key).toString('base64url')
  return `vapid t=${signed}.${signature}, k=${keys.publicKey}`
}
