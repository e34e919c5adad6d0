import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { followersAfterAll } from '../../domain/assessment/followers.ts'
import { notNeeded } from '../../domain/booking/not-needed.ts'
import { notifyBooking } from '../../notices/services/notify-booking.ts'
import type { Note } from '../../record/services/recorded.ts'
import { readDossiers, type StoredDossier } from '../db/dossiers.db.ts'
import {
  type AheadBooking,
  lockBookingsAhead,
  setEnding,
  settleBookings,
  slotStillOpen,
} from '../db/settle-bookings.db.ts'

/** A GO that has just begun to count. */
export interface NewGo {
  readonly sheetId: string
  readonly candidateId: string
  readonly standard: string
  readonly standardId: string
  readonly day: string
}

interface Settling {
  readonly tx: Transaction
  readonly catalogue: Catalogue
  readonly now: Date
  readonly note: Note
}

/**
 * Ends the bookings ahead that a GO has just made pointless, so that their slots are free, and lets those stand again
 * whose GO was undone: in their slot if nobody has it by now, else waiting in none on that day. Those concerned are told;
 * of one that stands again the office, too.
 * In: the soldiers whose sheets were judged anew, and the GOs that count since.
 */
export async function settleNeeds(settling: Settling, soldierIds: readonly string[], gos: readonly NewGo[]) {
  const { tx, catalogue, now } = settling
  if ((await lockBookingsAhead(tx, soldierIds, now)).length === 0) return
  for (const { candidateId, standardId } of gos) await settleBookings(tx, candidateId, standardId)
  const ahead = await lockBookingsAhead(tx, soldierIds, now)
  const dossiers = await readDossiers(tx, [...new Set(ahead.map(({ candidateId }) => candidateId))])
  for (const booking of ahead) {
    const since = passedBy(catalogue, dossiers.get(booking.candidateId)!, booking)
    const go = gos.find(
      (one) => one.candidateId === booking.candidateId && one.standard === booking.standard && one.day <= booking.day,
    )
    if (booking.state === 'booked' && since !== null && go) await end(settling, booking, go)
    if (booking.endedById !== null && since === null) await standAgain(settling, booking, ahead)
  }
}

const passedBy = (catalogue: Catalogue, dossier: StoredDossier, { standard, day }: AheadBooking): string | null =>
  notNeeded({ catalogue: catalogue.judging, standard, dossier }, followersAfterAll(catalogue.judging, dossier))(day)

const NOT_NEEDED = 'Not needed any more: passed already.'

async function end({ tx, now, note }: Settling, booking: AheadBooking, { sheetId }: NewGo): Promise<void> {
  const { id, candidateId, graderId, secondGraderId } = booking
  await setEnding(tx, id, { state: 'cancelled', stateReason: NOT_NEEDED, endedById: sheetId })
  await notifyBooking(tx, now, null, 'not needed', { ...booking, graderIds: [graderId, secondGraderId] })
  note({
    action: 'booking.ended-by-itself',
    subject: { kind: 'soldier', id: candidateId },
    before: { bookingId: id, state: booking.state },
    after: { bookingId: id, state: 'cancelled' },
    reason: 'Not needed any more.',
  })
}

async function standAgain({ tx, now, note }: Settling, booking: AheadBooking, ahead: readonly AheadBooking[]) {
  const { id, candidateId, standard, secondGraderId } = booking
  const hasAnother = ahead.some(
    (one) => one.state === 'booked' && one.candidateId === candidateId && one.standard === standard,
  )
  if (hasAnother) return setEnding(tx, id, { endedById: null })
  const keepsSlot = booking.slotId === null || (await slotStillOpen(tx, id))
  const place = keepsSlot ? {} : { slotId: null, graderId: null, startsAt: null }
  await setEnding(tx, id, { ...place, state: 'booked', stateReason: null, endedById: null })
  const stands = { ...booking, ...place }
  const graderIds = [stands.graderId, secondGraderId]
  await notifyBooking(tx, now, null, 'needed again', { ...stands, graderIds, toOffice: true })
  note({
    action: 'booking.stands-again',
    subject: { kind: 'soldier', id: candidateId },
    before: { bookingId: id, state: 'cancelled', slotId: booking.slotId },
    after: { bookingId: id, state: 'booked', slotId: stands.slotId },
    reason: 'Needed again.',
  })
}
