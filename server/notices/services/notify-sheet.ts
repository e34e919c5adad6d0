import type { NoticeKind } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { insertNotices, readSheetConcerned } from '../db/notices.db.ts'

/** Tells candidate, sponsor and grader on a sheet what became of it, and whom else it concerns; the office where it has to decide. */
export async function notifySheet(
  tx: Transaction,
  at: Date,
  actor: Actor | null,
  kind: NoticeKind,
  sheetId: string,
  also: readonly string[] = [],
): Promise<void> {
  const { candidateId, sponsorId, graderId, standard, day } = await readSheetConcerned(tx, sheetId)
  const isAppeal = kind.startsWith('appeal')
  const to = isAppeal ? [candidateId, sponsorId] : [candidateId, sponsorId, graderId, ...also]
  const toOffice = kind === 'sheet held' || kind === 'appealed'
  const news = {
    kind,
    aboutId: candidateId,
    to: kind === 'appealed' ? [graderId] : to,
    toOffice,
    sheetId,
    standard,
    day,
  }
  await insertNotices(tx, at, [news], actor?.soldierId ?? null)
}
