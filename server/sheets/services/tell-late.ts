import type { Transaction } from '../../db/client.ts'
import { insertNotices, readSheetConcerned } from '../../notices/db/notices.db.ts'

/** Tells the training office that a sheet came in after a later one of the same soldier. */
export async function tellLate(tx: Transaction, at: Date, sheetId: string): Promise<void> {
  const { candidateId, standard, day } = await readSheetConcerned(tx, sheetId)
  const about = { aboutId: candidateId, sheetId, standard, day }
  await insertNotices(tx, at, [{ kind: 'sheet arrived late', to: [], toOffice: true, ...about }], null)
}
