import type { Violation } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'

export interface LockedSheet {
  readonly candidateId: string
  readonly state: 'counted' | 'held' | 'rejected'
  readonly revision: number
  readonly violations: Violation[]
  readonly waived: string[]
}

/** Locks the candidate of a sheet, then reads how the sheet stands; null where there is none. */
export async function lockSheet(tx: Transaction, id: string): Promise<LockedSheet | null> {
  await tx.$queryRaw`
    SELECT person.id FROM soldier person JOIN sheet s ON s.candidate_id = person.id WHERE s.id = ${id}::uuid
    FOR NO KEY UPDATE OF person`
  const rows = await tx.$queryRaw<LockedSheet[]>`
    SELECT candidate_id::text AS "candidateId", state, revision, violations, waived FROM sheet WHERE id = ${id}::uuid`
  return rows[0] ?? null
}

/** Accounts that entered a sheet, amended it, or proposed to. */
export async function readWriters(tx: Transaction, id: string): Promise<string[]> {
  const rows = await tx.$queryRaw<{ id: string }[]>`
    SELECT by_id::text AS id FROM sheet_revision WHERE sheet_id = ${id}::uuid AND by_id IS NOT NULL
    UNION SELECT proposed_by_id::text FROM amendment_proposal WHERE sheet_id = ${id}::uuid`
  return rows.map((row) => row.id)
}

/** Stores what was decided about a sheet. */
export async function setWaived(
  tx: Transaction,
  id: string,
  state: 'held' | 'rejected',
  waived: readonly string[],
): Promise<void> {
  await tx.sheet.update({ where: { id }, data: { state, waived: [...waived] } })
}
