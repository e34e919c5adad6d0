import type { NoticeKind } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { insertNotices, readSponsorsOn } from '../db/news.db.ts'

/** A booking as those concerned are told of it. */
export interface ToldBooking {
  readonly candidateId: string
  readonly standard: string
  readonly testDayId: string
  readonly day: string
  readonly startsAt: Date | null
  readonly graderIds: readonly (string | null)[]
  readonly toOffice?: boolean
  readonly toLeaders?: boolean
}

/**
 * Tells candidate, sponsor of that day and graders what became of a booking; office and leaders where it says so.
 * `actor`: who did it and need not be told; null: it came by itself.
 */
export async function notifyBooking(
  tx: Transaction,
  at: Date,
  actor: Actor | null,
  kind: NoticeKind,
  { candidateId, standard, testDayId, day, startsAt, graderIds, ...more }: ToldBooking,
): Promise<void> {
  const to = [candidateId, ...(await readSponsorsOn(tx, candidateId, day)), ...graderIds]
  const news = {
    kind,
    aboutId: candidateId,
    to,
    toOffice: more.toOffice ?? false,
    toLeaders: more.toLeaders ?? false,
    testDayId,
    standard,
    day,
    startsAt,
  }
  await insertNotices(tx, at, [news], actor?.soldierId ?? null)
}
