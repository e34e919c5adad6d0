import { createECDH } from 'node:crypto'
import { importJWK, jwtVerify } from 'jose'
import { describe, expect, it } from 'vitest'
import { encryptPush, isPublicKey } from '../../server/push/encrypt-push.ts'
import { newPushKey, parsePushKey, vapidAuthorization } from '../../server/push/push-keys.ts'
import { makeReceiver } from '../support/push-service.ts'

const bytes = (text: string) => Buffer.from(text, 'base64url')

/** RFC 8291, "Message Encryption for Web Push", section 5 and appendix A. */
const PUBLISHED = {
  plaintext: 'When I grow up, I want to be a watermelon',
  senderPrivate: 'yfWPiYE-n46HLnH0KqZOF1fJJU3MYrct3AELtAQ-oRw',
  receiverPublic: 'BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4',
  salt: 'DGv6ra1nlYgDCS1FRnbzlw',
  secret: 'BTBZMqHH6r4Tts7J_aSIgg',
  body:
    'DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A_' +
    'yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN',
}

describe('a message for a browser', () => {
  it('is encrypted as the published example', () => {
    const sender = createECDH('prime256v1')
    sender.setPrivateKey(bytes(PUBLISHED.senderPrivate))
    const receiver = { publicKey: bytes(PUBLISHED.receiverPublic), secret: bytes(PUBLISHED.secret) }
    const body = encryptPush(Buffer.from(PUBLISHED.plaintext), receiver, { salt: bytes(PUBLISHED.salt), sender })
    expect(body.toString('base64url')).toBe(PUBLISHED.body)
  })

  it('is read by its browser and no other, and never twice the same', () => {
    const [receiver, other] = [makeReceiver(), makeReceiver()]
    const to = { publicKey: bytes(receiver.keys.p256dh), secret: bytes(receiver.keys.auth) }
    const [one, two] = [encryptPush(Buffer.from('{"a":1}'), to), encryptPush(Buffer.from('{"a":1}'), to)]
    expect(receiver.read(one)).toEqual({ a: 1 })
    expect(one.equals(two)).toBe(false)
    expect(() => other.read(one)).toThrow()
  })

  it('goes to no key that is no point of the curve', () => {
    expect(isPublicKey(bytes(PUBLISHED.receiverPublic))).toBe(true)
    const off = bytes(PUBLISHED.receiverPublic)
    off[64] = off[64]! ^ 1
    expect(isPublicKey(off)).toBe(false)
    expect(isPublicKey(Buffer.alloc(65))).toBe(false)
    expect(isPublicKey(Buffer.alloc(0))).toBe(false)
  })
})

describe('the signature of the unit', () => {
  it('is a token that an independent library verifies, for the origin of the push service and half a day', async () => {
    const keys = parsePushKey(newPushKey())!
    const now = new Date('2026-06-15T12:00:00Z')
    const header = vapidAuthorization(keys, 'https://push.example.org/send/abc?x=1', 'mailto:office@unit.example', now)
    const [, token, key] = /^vapid t=([^,]+), k=(.+)$/.exec(header)!
    const point = bytes(key!)
    const jwk = {
      kty: 'EC',
      crv: 'P-256',
      x: point.subarray(1, 33).toString('base64url'),
      y: point.subarray(33).toString('base64url'),
    }
    const { payload, protectedHeader } = await jwtVerify(token!, await importJWK(jwk, 'ES256'), { currentDate: now })
    expect(protectedHeader).toEqual({ typ: 'JWT', alg: 'ES256' })
    expect(payload).toEqual({
      aud: 'https://push.example.org',
      exp: now.getTime() / 1000 + 43_200,
      sub: 'mailto:office@unit.example',
    })
  })
})
