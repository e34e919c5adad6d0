import { FIRST_LEVELS, type Level } from '../domain/people/levels.ts'
import type { Transaction } from './client.ts'

/** The levels of the tree from the top down; those to begin with where a unit has said none. */
export async function readLevels(tx: Transaction): Promise<readonly Level[]> {
  const rows = await tx.$queryRaw<Level[]>`SELECT code, one, many, compared FROM unit_level ORDER BY place`
  return rows.length > 0 ? rows : FIRST_LEVELS
}

/** Nobody else changes the levels until the transaction ends, and nobody makes a unit of one. */
export async function lockLevels(tx: Transaction): Promise<void> {
  await tx.$executeRaw`LOCK TABLE unit_level IN SHARE ROW EXCLUSIVE MODE`
}

/** Nobody changes the levels until the transaction ends; many may make units at once. */
export async function shareLevels(tx: Transaction): Promise<void> {
  await tx.$executeRaw`LOCK TABLE unit_level IN ROW EXCLUSIVE MODE`
}

export async function replaceLevels(tx: Transaction, levels: readonly Level[]): Promise<void> {
  await tx.unitLevel.deleteMany()
  await tx.unitLevel.createMany({ data: levels.map((level, place) => ({ ...level, place })) })
}

/** Which of these levels a unit is of. */
export async function levelsInUse(tx: Transaction, codes: readonly string[]): Promise<string[]> {
  const rows = await tx.$queryRaw<{ code: string }[]>`
    SELECT DISTINCT kind AS code FROM unit WHERE kind = ANY(${[...codes]}::text[]) ORDER BY kind`
  return rows.map(({ code }) => code)
}
