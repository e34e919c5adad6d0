import type { NoticeKind } from '../../contract/notices/notices.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { insertNotices, readSponsorsOn } from '../db/notices.db.ts'

/** A booking as those concerned are told of it. */
export interface ToldBooking {
  readonly candidateId: string
  readonly standard: string
  readonly testDayId: string
  readonly day: string
  readonly startsAt: Date | null
  readonly graderIds: readonly (string | null)[]
}

/** Tells candidate, sponsor of that day and graders of a booking that was made, moved, cancelled or called off. */
export async function tellBooking(
  tx: Transaction,
  at: Date,
  actor: Actor,
  kind: NoticeKind,
  { candidateId, standard, testDayId, day, startsAt, graderIds }: ToldBooking,
): Promise<void> {
  const to = [candidateId, ...(await readSponsorsOn(tx, candidateId, day)), ...graderIds]
  await insertNotices(tx, at, [{ kind, aboutId: candidateId, to, testDayId, standard, day, startsAt }], actor.soldierId)
}
