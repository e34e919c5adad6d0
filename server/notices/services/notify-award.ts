import type { NoticeKind } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'
import { insertNotices } from '../db/news.db.ts'

/** An award that a commander is asked about, or said something about. */
export interface ToldAward {
  readonly soldierId: string
  readonly certification: string
  /** When it was earned, from when it is in force, or its last day as extended; null: it makes no difference. */
  readonly day: string | null
}

/** Tells commanders above the soldiers of awards that wait for them. */
export async function notifyWaiting(
  tx: Transaction,
  at: Date,
  awards: readonly (ToldAward & { readonly sheetId: string })[],
): Promise<void> {
  const news = awards.map(({ soldierId, ...award }) => ({
    kind: 'award waiting' as const,
    aboutId: soldierId,
    to: [],
    toCommanders: true,
    ...award,
  }))
  await insertNotices(tx, at, news, null)
}

/** Tells soldiers, and whoever leads them, what a commander said about their awards. `doneBy`: the commander's own soldier, if any. */
export async function notifyAwards(
  tx: Transaction,
  at: Date,
  kind: Extract<NoticeKind, `award ${string}` | `${string} taken back`>,
  awards: readonly ToldAward[],
  doneBy: string | null,
): Promise<void> {
  const news = awards.map(({ soldierId, ...award }) => ({
    kind,
    aboutId: soldierId,
    to: [soldierId],
    toLeaders: true,
    ...award,
  }))
  await insertNotices(tx, at, news, doneBy)
}
