import { createPrivateKey, X509Certificate } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import { createSecureContext } from 'node:tls'

/** Certificate (with those it hangs on) and private key, as PEM. */
export interface Tls {
  readonly cert: string
  readonly key: string
  /** The last day of the certificate, as an instant. */
  readonly validTo: Date
}

/**
 * Reads what TLS needs. In: the folder that relative paths are meant from, and the settings as given.
 * Out: certificate and key (null: TLS is not wanted), and what is wrong with them, one sentence each.
 */
export function readTls(
  folder: string,
  { TLS_CERT_FILE, TLS_KEY_FILE }: { TLS_CERT_FILE?: string; TLS_KEY_FILE?: string },
): { tls: Tls | null; mistakes: string[] } {
  if (TLS_CERT_FILE === undefined && TLS_KEY_FILE === undefined) return { tls: null, mistakes: [] }
  if (TLS_CERT_FILE === undefined || TLS_KEY_FILE === undefined) {
    const missing = TLS_CERT_FILE === undefined ? 'TLS_CERT_FILE' : 'TLS_KEY_FILE'
    return { tls: null, mistakes: [`${missing} is not set; TLS needs both TLS_CERT_FILE and TLS_KEY_FILE.`] }
  }
  const mistakes: string[] = []
  const cert = readFile('TLS_CERT_FILE', path.resolve(folder, TLS_CERT_FILE), mistakes)
  const key = readFile('TLS_KEY_FILE', path.resolve(folder, TLS_KEY_FILE), mistakes)
  if (cert === null || key === null) return { tls: null, mistakes }
  const certificate = understand('TLS_CERT_FILE is no certificate', () => new X509Certificate(cert), mistakes)
  const privateKey = understand(
    'TLS_KEY_FILE is no private key without a passphrase',
    () => createPrivateKey(key),
    mistakes,
  )
  if (certificate === null || privateKey === null) return { tls: null, mistakes }
  if (!certificate.checkPrivateKey(privateKey)) {
    return { tls: null, mistakes: ['TLS_KEY_FILE is not the key of the certificate in TLS_CERT_FILE; give the pair.'] }
  }
  understand(
    'The pair of TLS_CERT_FILE and TLS_KEY_FILE cannot be used',
    () => createSecureContext({ cert, key }),
    mistakes,
  )
  return { tls: { cert, key, validTo: new Date(certificate.validTo) }, mistakes }
}

function readFile(name: string, file: string, mistakes: string[]): string | null {
  try {
    return fs.readFileSync(file, 'utf8')
  } catch (error) {
    mistakes.push(
      `${name} is ${JSON.stringify(file)}, which cannot be read (${(error as NodeJS.ErrnoException).code}).`,
    )
    return null
  }
}

/** The library's own message may quote the file, so it is not shown. */
function understand<Result>(fault: string, read: () => Result, mistakes: string[]): Result | null {
  try {
    return read()
  } catch {
    mistakes.push(`${fault}; give a file in PEM, as certificate authorities hand it out.`)
    return null
  }
}
