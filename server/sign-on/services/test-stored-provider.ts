import { requireAdministrator } from '../../accounts/services/administration/require-administrator.ts'
import type { Context } from '../../context/context.ts'
import type { ProviderTest } from '../../contract/sign-on/providers.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { readProvider } from '../db/providers.db.ts'
import { testProvider } from '../provider/test-provider.ts'
import { clientOf, returnAddressOf } from './provider-client.ts'
import { providersOf } from './providers-of.ts'

/** Tests a provider as it is stored. */
export async function testStoredProvider(context: Context, actor: Actor, id: string): Promise<ProviderTest> {
  requireAdministrator(actor)
  const provider = await readProvider(context.db, id)
  if (!provider) throw notFound('provider')
  const client = clientOf(context, provider)
  const tested = { ...client, scopes: provider.scopes, returnAddress: returnAddressOf(context, id) }
  return testProvider(providersOf(context), tested, { now: context.clock(), allowsLoopback: context.loopbackProviders })
}
