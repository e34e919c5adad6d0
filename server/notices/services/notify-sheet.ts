import type { NoticeKind } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { insertNotices, readSheetConcerned } from '../db/news.db.ts'

/** Whom and what a sheet is about. */
export interface AboutSheet {
  readonly sheetId: string
  readonly candidateId: string
  readonly sponsorId: string | null
  readonly graderId: string
  readonly standard: string
  readonly day: string
}

/**
 * Tells candidate, sponsor and grader on a sheet what became of it, and whom else it concerns; the office where it has to
 * decide. In: the sheet, or its id where no more is known.
 */
export async function notifySheet(
  tx: Transaction,
  at: Date,
  actor: Actor | null,
  kind: NoticeKind,
  sheet: AboutSheet | string,
  also: readonly string[] = [],
): Promise<void> {
  const about = typeof sheet === 'string' ? await readSheetConcerned(tx, sheet) : sheet
  const { sheetId, candidateId, sponsorId, graderId, standard, day } = about
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
