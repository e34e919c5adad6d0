import type { Transaction } from '../../db/client.ts'
import { insertNotices } from '../../notices/db/news.db.ts'
import type { AboutSheet } from '../../notices/services/notify-sheet.ts'
import { differsFromItsPair } from '../db/second-gradings.db.ts'

/** Tells the training office when a sheet that just came in is the second of two of one attempt that differ in outcome. */
export async function notifyDiffering(
  tx: Transaction,
  at: Date,
  { sheetId, candidateId, standard, day }: Pick<AboutSheet, 'sheetId' | 'candidateId' | 'standard' | 'day'>,
): Promise<void> {
  if (!(await differsFromItsPair(tx, sheetId))) return
  const news = { kind: 'graders differ', aboutId: candidateId, to: [], toOffice: true, sheetId, standard, day } as const
  await insertNotices(tx, at, [news], null)
}
