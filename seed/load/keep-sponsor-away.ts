import type { Context } from '../../server/context/context.ts'
import type { Actor } from '../../server/domain/access/actor.ts'
import { sponsorOn } from '../../server/domain/booking/sponsor-on.ts'
import { addDays } from '../../server/domain/calendar/plain-date.ts'
import { listSponsorships } from '../../server/plans/db/retest-facts.db.ts'
import { addAbsence } from '../../server/soldiers/services/absences.ts'
import { findBookings } from '../../server/test-days/services/bookings/find-bookings.ts'

const DAYS_AWAY = 42
const MOST_BOOKINGS = 500

/** Lets the first sponsor whose candidate waits for a retest, and none of whose candidates is booked, be away for weeks. */
export async function keepSponsorAway(
  context: Context,
  office: Actor,
  retests: readonly { readonly soldierId: string }[],
  today: string,
): Promise<void> {
  const { items } = await findBookings(context, office, { from: today, limit: MOST_BOOKINGS })
  const booked = items.map(({ candidateId }) => candidateId)
  const waiting = retests.map(({ soldierId }) => soldierId).filter((id) => !booked.includes(id))
  const sponsorships = await listSponsorships(context.db, [...booked, ...waiting])
  const sponsorOf = (id: string) => sponsorOn(sponsorships.get(id) ?? [], today)
  const busy = new Set(booked.map(sponsorOf))
  const away = waiting.map(sponsorOf).find((id) => id !== null && !busy.has(id))
  if (!away) return
  await addAbsence(context, office, away, { kind: 'leave', from: today, through: addDays(today, DAYS_AWAY) })
}
