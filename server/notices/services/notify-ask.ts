import type { NoticeKind } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'
import { insertAskNotice } from '../db/news.db.ts'

/** Tells whoever leads a unit that it is asked for a soldier, or who asked that it has answered. */
export async function notifyAsk(
  tx: Transaction,
  at: Date,
  kind: Extract<NoticeKind, 'soldier asked for' | 'ask answered'>,
  about: { readonly askId: string; readonly day: string },
): Promise<void> {
  await insertAskNotice(tx, at, kind, about)
}
