import type { Transaction } from './client.ts'

/** Key of the advisory lock that stands for standards and certifications. */
const CATALOGUE_LOCK = 7_300_001

/** While a sheet is judged no standard or certification changes; many sheets may be judged at once. */
export async function shareCatalogue(tx: Transaction): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock_shared(${CATALOGUE_LOCK}::bigint)`
}

/** While standards or certifications change no sheet is judged. */
export async function lockCatalogue(tx: Transaction): Promise<void> {
  await tx.$executeRaw`SELECT pg_advisory_xact_lock(${CATALOGUE_LOCK}::bigint)`
}

/** Until the end of the transaction nobody else judges these soldiers' sheets. Out: the ids that exist. */
export async function lockSoldiers(tx: Transaction, ids: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT id::text FROM soldier WHERE id = ANY(${[...ids]}::uuid[]) ORDER BY id FOR NO KEY UPDATE`
  return rows.map(({ id }) => id)
}

/** Until the end of the transaction these soldiers' records stay as they are. Out: the ids that exist. */
export async function shareSoldiers(tx: Transaction, ids: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT id::text FROM soldier WHERE id = ANY(${[...ids]}::uuid[]) ORDER BY id FOR SHARE`
  return rows.map(({ id }) => id)
}
