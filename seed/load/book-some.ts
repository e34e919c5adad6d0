import type { Context } from '../../server/context/context.ts'
import type { Actor } from '../../server/domain/access/actor.ts'
import { bookInBulk } from '../../server/test-days/services/bookings/book-in-bulk.ts'
import { planBookings } from '../../server/test-days/services/bookings/plan-bookings.ts'

export interface Wanted {
  readonly candidateId: string
  readonly standard: string
}

/** Books as many as asked for, in order, of those whose sheets nothing would hold. */
export async function bookSome(
  context: Context,
  office: Actor,
  testDayId: string,
  wanted: readonly Wanted[],
  most: number,
): Promise<void> {
  const distinct = [...new Map(wanted.map((one) => [`${one.candidateId} ${one.standard}`, one])).values()]
  const plan = await planBookings(context, office, { testDayIds: [testDayId], wanted: distinct })
  const bookings = plan.items
    .filter(({ conflicts }) => conflicts.every(({ weight }) => weight === 'warns'))
    .flatMap(({ candidateId, standard, slotId }) => (slotId ? [{ candidateId, standard, slotId }] : []))
    .slice(0, most)
  if (bookings.length > 0) await bookInBulk(context, office, { bookings, whatFits: true })
}
