import type { Transaction } from '../../db/client.ts'
import { insertNotices, readCandidatesAndGraders } from '../db/news.db.ts'

/** Tells the candidates and graders of sheets that were taken in together, each once; not who did it. */
export async function notifyNamed(
  tx: Transaction,
  at: Date,
  doneBy: string | null,
  sheetIds: readonly string[],
): Promise<void> {
  const people = await readCandidatesAndGraders(tx, sheetIds)
  const news = people.map((id) => ({ kind: 'sheets taken in' as const, aboutId: id, to: [id] }))
  await insertNotices(tx, at, news, doneBy)
}
