import {
  CompactSign,
  calculateJwkThumbprint,
  compactVerify,
  decodeProtectedHeader,
  errors,
  importJWK,
  type JWK,
} from 'jose'
import type { CertificateKey } from '../../../context/certificate-key.ts'

const ALGORITHM = 'EdDSA'
const KID = /^[\w-]{43}$/

const toJwk = (key: { x: string; d?: string }): JWK => ({ kty: 'OKP', crv: 'Ed25519', ...key })

/** By what a public key is known: its thumbprint (RFC 7638, RFC 8037 appendix A.3), base64url. */
export const kidOf = ({ x }: Pick<CertificateKey, 'x'>): Promise<string> => calculateJwkThumbprint(toJwk({ x }))

/** A text signed with Ed25519, as a compact JSON Web Signature (RFC 7515, RFC 8037). */
export async function signText(text: string, { x, d }: CertificateKey, header: { kid?: string }): Promise<string> {
  return new CompactSign(new TextEncoder().encode(text))
    .setProtectedHeader({ alg: ALGORITHM, ...header })
    .sign(await importJWK(toJwk({ x, d }), ALGORITHM))
}

/** The key that a signature says it was made under; null where it names none, or is none. */
export function kidIn(jws: string): string | null {
  try {
    const { kid } = decodeProtectedHeader(jws)
    return typeof kid === 'string' && KID.test(kid) ? kid : null
  } catch {
    return null
  }
}

/** The text that was signed under a public key; null where the signature is not by it, or by any other algorithm. */
export async function verifyText(jws: string, x: string): Promise<string | null> {
  try {
    const { payload } = await compactVerify(jws, await importJWK(toJwk({ x }), ALGORITHM), { algorithms: [ALGORITHM] })
    return new TextDecoder().decode(payload)
  } catch (error) {
    if (error instanceof errors.JOSEError) return null
    throw error
  }
}
