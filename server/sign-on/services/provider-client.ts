import { unseal } from '../../accounts/services/sealed.ts'
import type { Context } from '../../context/context.ts'
import { AppError } from '../../errors.ts'
import type { StoredProvider } from '../db/providers.db.ts'
import type { ProviderClient } from '../provider/providers.ts'

/** What a client's secret is sealed for: its provider. */
export const secretOf = (providerId: string): string => `client secret of ${providerId}`

/** The server's own key. */
export function keyOf({ secretKey }: Context): Uint8Array {
  if (secretKey === null) throw new Error('keyOf: this process has no key')
  return secretKey
}

/** A provider as one speaks with it. Throws where its secret was sealed by a server with another key. */
export function clientOf(context: Context, { id, issuer, clientId, clientSecret }: StoredProvider): ProviderClient {
  if (clientSecret === null) return { issuer, clientId, clientSecret }
  const secret = unseal(keyOf(context), clientSecret, secretOf(id))
  if (secret !== null) return { issuer, clientId, clientSecret: secret }
  throw new AppError(
    'conflict',
    'secret-unreadable',
    'The client secret was sealed with another key than this server’s. An administrator has to type it again.',
  )
}

/** Where a provider sends people back to: an address of its own for each, so that none can pass for another. */
export function returnAddressOf(context: Context, providerId: string): string {
  const address = context.address()
  if (address !== null) return `${address}/api/sign-on/return/${providerId}`
  throw new AppError(
    'conflict',
    'no-public-address',
    'The server does not know its own address, so nobody can be sent back to it. Set REVIEWSTAND_ADDRESS and start it again.',
  )
}
