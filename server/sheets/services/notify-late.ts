import type { Transaction } from '../../db/client.ts'
import { insertNotices } from '../../notices/db/news.db.ts'
import { firstArrivedLate } from '../db/sheet-reads.db.ts'

/** Tells the training office which of these sheets came in after a later one of the same soldier; of each soldier once. */
export async function notifyLate(tx: Transaction, at: Date, sheetIds: readonly string[]): Promise<void> {
  const late = await firstArrivedLate(tx, sheetIds)
  const news = late.map((about) => ({ kind: 'sheet arrived late' as const, to: [], toOffice: true, ...about }))
  await insertNotices(tx, at, news, null)
}
