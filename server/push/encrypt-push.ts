import { createCipheriv, createECDH, ECDH, hkdfSync, randomBytes } from 'node:crypto'

const CURVE = 'prime256v1'
const SALT_BYTES = 16
const RECORD_BYTES = 4096
const POINT_BYTES = 65
/** Ends the one and last record (RFC 8188, section 2). */
const LAST_RECORD = 2

/** What is made anew for every message; given only to repeat a published example. */
export interface Fresh {
  readonly salt: Buffer
  readonly sender: ECDH
}

const fresh = (): Fresh => {
  const sender = createECDH(CURVE)
  sender.generateKeys()
  return { salt: randomBytes(SALT_BYTES), sender }
}

/** Whether these bytes are an uncompressed point of the curve. */
export function isPublicKey(bytes: Buffer): boolean {
  try {
    return bytes.length === POINT_BYTES && ECDH.convertKey(bytes, CURVE).length === POINT_BYTES
  } catch {
    return false
  }
}

const derive = (secret: Uint8Array, salt: Uint8Array, info: Buffer, bytes: number): Buffer =>
  Buffer.from(hkdfSync('sha256', secret, salt, info, bytes))

/**
 * Encrypts a message for one browser (RFC 8291 with RFC 8188, `aes128gcm`), in one record without padding.
 * In: the message, the browser's public key (65 bytes, uncompressed) and secret (16 bytes). Out: the body to send.
 * Throws for a key that is no point of the curve.
 */
export function encryptPush(
  message: Buffer,
  receiver: { readonly publicKey: Buffer; readonly secret: Buffer },
  { salt, sender }: Fresh = fresh(),
): Buffer {
  const publicKey = sender.getPublicKey()
  const shared = sender.computeSecret(receiver.publicKey)
  const info = Buffer.concat([Buffer.from('WebPush: info\0'), receiver.publicKey, publicKey])
  const keying = derive(shared, receiver.secret, info, 32)
  const key = derive(keying, salt, Buffer.from('Content-Encoding: aes128gcm\0'), 16)
  const nonce = derive(keying, salt, Buffer.from('Content-Encoding: nonce\0'), 12)
  const head = Buffer.alloc(SALT_BYTES + 5)
  salt.copy(head)
  head.writeUInt32BE(RECORD_BYTES, SALT_BYTES)
  head.writeUInt8(POINT_BYTES, SALT_BYTES + 4)
  const cipher = createCipheriv('aes-128-gcm', key, nonce)
  const sealed = [cipher.update(message), cipher.update(Buffer.from([LAST_RECORD])), cipher.final()]
  return Buffer.concat([head, publicKey, ...sealed, cipher.getAuthTag()])
}
