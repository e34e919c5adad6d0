import { createPrivateKey, createPublicKey, generateKeyPairSync } from 'node:crypto'
import path from 'node:path'
import type { Config } from '../../config/config.ts'
import type { CertificateKey } from '../../context/certificate-key.ts'
import { makeDataFolder } from './data-folder.ts'
import { keepKeyFile } from './key-file.ts'

/**
 * The key pair under which certificates are signed: a JWK in the data folder. Without the file a new one is made.
 * @throws StartProblem where it is no such key, or cannot be read or made
 */
export function readCertificateKey({ dataFolder }: Pick<Config, 'dataFolder'>): CertificateKey {
  makeDataFolder(dataFolder)
  return keepKeyFile(
    {
      file: path.join(dataFolder, 'certificate-key.json'),
      name: 'key of certificates',
      remedy:
        'Bring back the one that was there, or take the file away: a new key is made, and certificates signed before can still be checked.',
      make: newKey,
      parse: parseKey,
    },
    dataFolder,
  )
}

function newKey(): string {
  const { kty, crv, x, d } = generateKeyPairSync('ed25519').privateKey.export({ format: 'jwk' })
  return JSON.stringify({ kty, crv, x, d })
}

/** Null: no Ed25519 key, or its public part is another key's. */
function parseKey(text: string): CertificateKey | null {
  try {
    const { kty, crv, x, d } = JSON.parse(text)
    const own = createPublicKey(createPrivateKey({ key: { kty, crv, x, d }, format: 'jwk' })).export({ format: 'jwk' })
    return crv === 'Ed25519' && own.x === x ? { x, d } : null
  } catch {
    return null
  }
}
