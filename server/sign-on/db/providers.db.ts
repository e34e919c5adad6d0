import type { Provider } from '../../contract/sign-on/providers.ts'
import type { Transaction } from '../../db/client.ts'
import type { ClaimRule } from '../../domain/access/claim-rules.ts'

export interface StoredProvider {
  readonly id: string
  readonly name: string
  readonly issuer: string
  readonly clientId: string
  /** Sealed; null: there is none. */
  readonly clientSecret: Uint8Array | null
  readonly scopes: string
  readonly enabled: boolean
  readonly makesAccounts: boolean
  readonly rulesEachTime: boolean
  readonly makesAdministrators: boolean
  readonly nameClaim: string
  readonly soldierClaim: string | null
  readonly rules: ClaimRule[]
}

const withRules = { rules: { orderBy: { position: 'asc' } } } as const
type Row = Omit<StoredProvider, 'rules'> & { rules: Record<keyof ClaimRule, string | null>[] }

const toProvider = ({ rules, ...provider }: Row): StoredProvider => ({
  ...provider,
  rules: rules.map(({ claim, test, value, role, unitId }) => ({ claim, test, value, role, unitId }) as ClaimRule),
})

/** All providers by name, those switched off too. */
export async function listProviders(tx: Transaction): Promise<(StoredProvider & { linked: number })[]> {
  const rows = await tx.signOnProvider.findMany({
    include: { ...withRules, _count: { select: { identities: true } } },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  })
  return rows.map(({ _count, ...row }) => ({ ...toProvider(row), linked: _count.identities }))
}

export async function readProvider(tx: Transaction, id: string): Promise<StoredProvider | null> {
  const row = await tx.signOnProvider.findUnique({ where: { id }, include: withRules })
  return row && toProvider(row)
}

/** What the sign-in page shows: id and name of those that are on, by name. */
export async function listDoors(tx: Transaction): Promise<{ id: string; name: string; issuer: string }[]> {
  return tx.signOnProvider.findMany({
    where: { enabled: true },
    select: { id: true, name: true, issuer: true },
    orderBy: [{ name: 'asc' }, { id: 'asc' }],
  })
}

/** Keeps a provider as it is until the end of the transaction, against whoever changes it. Out: how many it signs in; null: it is not there. */
export async function lockProvider(tx: Transaction, id: string): Promise<number | null> {
  const rows = await tx.$queryRaw<{ linked: number }[]>`
    SELECT (SELECT count(*)::int FROM identity n WHERE n.provider_id = p.id) AS linked
    FROM sign_on_provider p WHERE id = ${id}::uuid FOR UPDATE`
  return rows[0]?.linked ?? null
}

type Written = Omit<Provider, 'hasSecret' | 'linked' | 'returnAddress'> & {
  /** Sealed; left out: the one there stays. */
  readonly clientSecret?: Buffer | null
}

/** Stores a provider and its rules under its id, in the place of what was there. */
export async function saveProvider(
  tx: Transaction,
  { id, rules, clientSecret, ...settings }: Written,
  now: Date,
): Promise<void> {
  const secret =
    clientSecret === undefined ? {} : { clientSecret: clientSecret === null ? null : new Uint8Array(clientSecret) }
  const data = { ...settings, ...secret }
  await tx.signOnProvider.upsert({ where: { id }, create: { id, ...data, createdAt: now }, update: data })
  await tx.claimRule.deleteMany({ where: { providerId: id } })
  await tx.claimRule.createMany({ data: rules.map((rule, position) => ({ ...rule, providerId: id, position })) })
}

/** Whether name and password stand behind a line to open. */
export async function readFold(tx: Transaction): Promise<boolean> {
  return (await tx.signOnPage.findUnique({ where: { id: 1 } }))?.foldsPasswords ?? false
}

export async function saveFold(tx: Transaction, foldsPasswords: boolean): Promise<void> {
  await tx.signOnPage.upsert({ where: { id: 1 }, create: { id: 1, foldsPasswords }, update: { foldsPasswords } })
}
