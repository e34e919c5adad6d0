import { noteNew } from '../../arms-and-grades/services/note-new.ts'
import type { SheetBody } from '../../contract/sheets/sheets.ts'
import type { StandardVersion } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import type { Note } from '../../record/services/recorded.ts'

/**
 * Puts the arm of a sheet into the unit's list where it is new, not confirmed, so that the office is asked about it. The arms
 * of a standard are in the list already, so most sheets ask nothing.
 */
export async function noteArm(
  tx: Transaction,
  note: Note,
  { arm }: SheetBody,
  version: StandardVersion,
): Promise<void> {
  if (arm !== null && !version.definition.arms.includes(arm)) await noteNew(tx, note, { arms: [arm] })
}
