import { existingUnits } from '../../access/db/units.db.ts'
import { requireAdministrator } from '../../accounts/services/administration/require-administrator.ts'
import { seal } from '../../accounts/services/sealed.ts'
import type { Context } from '../../context/context.ts'
import type { ClaimRule, Provider, ProviderBody, ProviderList } from '../../contract/sign-on/providers.ts'
import type { Transaction } from '../../db/client.ts'
import { isDuplicate } from '../../db/database-errors.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type IssuerProblem, issuerProblem } from '../../domain/access/issuer-problem.ts'
import { conflict, invalid } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { listProviders, lockProvider, readFold, readProvider, saveFold, saveProvider } from '../db/providers.db.ts'
import { keyOf, secretOf } from './provider-client.ts'

/** The providers by name, without their secrets, for administrators. */
export async function findProviders(context: Context, actor: Actor): Promise<ProviderList> {
  requireAdministrator(actor)
  const address = context.address()
  const items = (await listProviders(context.db)).map(
    ({ clientSecret, ...provider }): Provider => ({
      ...provider,
      hasSecret: clientSecret !== null,
      returnAddress: address && `${address}/api/sign-on/return/${provider.id}`,
    }),
  )
  return { items, next: null, foldsPasswords: await readFold(context.db), publicAddress: address }
}

/**
 * Stores a provider under its id, new or changed; it holds from the next sign-in on. The issuer of one that signs accounts in
 * stays: their subjects are that issuer's.
 */
export async function putProvider(
  context: Context,
  actor: Actor,
  id: string,
  { clientSecret, ...body }: ProviderBody,
): Promise<{ id: string }> {
  requireAdministrator(actor)
  const problem = issuerProblem(body.issuer, context.loopbackProviders)
  if (problem !== null) throw invalid(problem, '/issuer', ISSUER_WORDS[problem])
  const sealed = typeof clientSecret === 'string' ? seal(keyOf(context), clientSecret, secretOf(id)) : clientSecret
  const secret = sealed === undefined ? {} : { clientSecret: sealed }
  try {
    return await recorded(context, actor, async (tx, note) => {
      const linked = await lockProvider(tx, id)
      const before = await readProvider(tx, id)
      if (before && linked && before.issuer !== body.issuer) throw issuerStays(linked)
      await requireUnits(tx, body.rules)
      await saveProvider(tx, { id, ...body, ...secret }, context.clock())
      const action = before ? 'sign-on.provider-changed' : 'sign-on.provider-added'
      const changed = clientSecret === undefined ? {} : { clientSecret: clientSecret === null ? 'none' : 'changed' }
      note({
        action,
        subject: { kind: 'sign-on provider', id },
        ...(before && { before: withoutSecret(before) }),
        after: { ...body, ...changed },
      })
      return { id }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw conflict('provider-double', 'There is a provider of this name or issuer already. Change that one.')
  }
}

/** Shows name and password on the sign-in page, or puts them behind a line to open; either way they let in. */
export async function foldPasswords(context: Context, actor: Actor, foldsPasswords: boolean): Promise<void> {
  requireAdministrator(actor)
  await recorded(context, actor, async (tx, note) => {
    const before = { foldsPasswords: await readFold(tx) }
    await saveFold(tx, foldsPasswords)
    const action = 'sign-on.page-changed'
    note({ action, subject: { kind: 'sign-on provider', id: null }, before, after: { foldsPasswords } })
  })
}

async function requireUnits(tx: Transaction, rules: readonly ClaimRule[]): Promise<void> {
  const there = await existingUnits(
    tx,
    rules.flatMap(({ unitId }) => unitId ?? []),
  )
  const gone = rules.findIndex(({ unitId }) => unitId !== null && !there.includes(unitId))
  if (gone === -1) return
  throw invalid('unknown-unit', `/rules/${gone}/unitId`, 'There is no such unit; choose one of the tree.')
}

const withoutSecret = <Row extends { clientSecret: unknown }>({ clientSecret: _, ...rest }: Row) => rest

const ISSUER_WORDS: Record<IssuerProblem, string> = {
  'no-address': 'This is no address. Copy the issuer from the provider, as in https://login.example.org.',
  'not-by-tls': 'An issuer begins with https://. Ask whoever runs the provider for the address with TLS.',
  'with-query': 'An issuer has no question mark, no # and no password in it. Copy it from the provider as it is.',
}

const issuerStays = (linked: number) =>
  conflict(
    'issuer-in-use',
    `${linked === 1 ? 'An account is' : `${linked} accounts are`} linked by this issuer. Switch this provider off and add another one.`,
  )
