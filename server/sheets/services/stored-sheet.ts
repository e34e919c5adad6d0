import type { SheetResult, StoredSheet } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import type { SheetScore } from '../../domain/scoring/types.ts'
import { notFound } from '../../errors.ts'
import { readSheetOutcome } from '../db/sheet-reads.db.ts'

/** A stored sheet as answered to whoever changed it. */
export async function readStoredSheet(tx: Transaction, id: string): Promise<StoredSheet> {
  const row = await readSheetOutcome(tx, id)
  if (!row) throw notFound('sheet')
  const { state, arrivedLate, score, attempts, violations } = row
  return { id, state, arrivedLate, result: toResult(score, attempts), violations }
}

/** What the record of changes says of a sheet. */
export const standingOf = ({ state, result, violations }: StoredSheet) => ({
  state,
  outcome: result.outcome,
  violations: violations.map(({ rule }) => rule),
})

/** The result of a sheet in the wire format: what it scores, and which attempt it is. */
export function toResult(
  score: SheetScore,
  attempts: readonly { certification: string; number: number }[],
): SheetResult {
  return {
    ...score,
    minors: score.minors.map((minor) => ({ ...minor, faults: [...minor.faults] })),
    attempts: [...attempts],
  }
}
