import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import type { MarkedMajor, MarkedMinor, SheetScore } from '../../domain/scoring/types.ts'

export interface CountedSheet {
  readonly score: SheetScore
  readonly majors: readonly MarkedMajor[]
  readonly minors: readonly MarkedMinor[]
}

/** The score and the marks of the revisions in force, by sheet. */
export async function readCountedSheets(
  tx: Transaction,
  sheetIds: readonly string[],
): Promise<Map<string, CountedSheet>> {
  if (sheetIds.length === 0) return new Map()
  const rows = await tx.$queryRaw<(Pick<SheetBody, 'majors' | 'minors'> & { id: string; score: SheetScore })[]>`
    SELECT s.id::text, r.score, r.body -> 'majors' AS majors, r.body -> 'minors' AS minors
    FROM sheet s JOIN sheet_revision r ON r.sheet_id = s.id AND r.number = s.revision
    WHERE s.id = ANY(${[...sheetIds]}::uuid[])`
  return new Map(rows.map((row) => [row.id, row]))
}
