import type { Context } from '../../../context/context.ts'
import { type AppError, conflict } from '../../../errors.ts'
import { seal, unseal } from '../sealed.ts'

const of = (accountId: string): string => `authenticator app ${accountId}`

/** Seals the secret of an account's authenticator app. */
export function sealApp({ secretKey }: Context, accountId: string, secret: string): Buffer {
  if (!secretKey) throw keyLost()
  return seal(secretKey, secret, of(accountId))
}

/** Opens it again. Throws where the key of the server is not the one it was sealed with. */
export function unsealApp({ secretKey }: Context, accountId: string, sealed: Uint8Array): string {
  const secret = secretKey && unseal(secretKey, sealed, of(accountId))
  if (!secret) throw keyLost()
  return secret
}

const keyLost = (): AppError =>
  conflict(
    'app-key-lost',
    'This server no longer has the key to its authenticator apps. Use a recovery code or a passkey, or ask an administrator to reset your second factor.',
  )
