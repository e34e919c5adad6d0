import { createCipheriv, createDecipheriv, randomBytes } from 'node:crypto'

const ALGORITHM = 'aes-256-gcm'
const NONCE_BYTES = 12
const TAG_BYTES = 16

/**
 * Seals a secret that we must be able to read again (AES-256-GCM, NIST SP 800-38D), under the server's own key, which is in
 * no database and no backup. In: the key, the secret, and what it is of, without which it does not open: a row that is put
 * in the place of another opens to nothing.
 */
export function seal(key: Uint8Array, secret: string, of: string): Buffer {
  const nonce = randomBytes(NONCE_BYTES)
  const cipher = createCipheriv(ALGORITHM, key, nonce).setAAD(Buffer.from(of))
  const body = Buffer.concat([cipher.update(secret, 'utf8'), cipher.final()])
  return Buffer.concat([nonce, cipher.getAuthTag(), body])
}

/** Opens what was sealed; null where it was sealed under another key, of something else, or changed since. */
export function unseal(key: Uint8Array, sealed: Uint8Array, of: string): string | null {
  const bytes = Buffer.from(sealed)
  if (bytes.length < NONCE_BYTES + TAG_BYTES) return null
  try {
    const nonce = bytes.subarray(0, NONCE_BYTES)
    const opener = createDecipheriv(ALGORITHM, key, nonce, { authTagLength: TAG_BYTES })
    opener.setAAD(Buffer.from(of)).setAuthTag(bytes.subarray(NONCE_BYTES, NONCE_BYTES + TAG_BYTES))
    const body = bytes.subarray(NONCE_BYTES + TAG_BYTES)
    return Buffer.concat([opener.update(body), opener.final()]).toString('utf8')
  } catch {
    return null
  }
}
