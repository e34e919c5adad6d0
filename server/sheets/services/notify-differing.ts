import type { Transaction } from '../../db/client.ts'
import { insertNotices, readSheetConcerned } from '../../notices/db/notices.db.ts'
import { differsFromItsPair } from '../db/second-gradings.db.ts'

/** Tells the training office when a sheet that just came in is the second of two of one attempt that differ in outcome. */
export async function notifyDiffering(tx: Transaction, at: Date, sheetId: string): Promise<void> {
  if (!(await differsFromItsPair(tx, sheetId))) return
  const { candidateId, standard, day } = await readSheetConcerned(tx, sheetId)
  const news = { kind: 'graders differ', aboutId: candidateId, to: [], toOffice: true, sheetId, standard, day } as const
  await insertNotices(tx, at, [news], null)
}
