import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import type { Booking } from '../../../contract/test-days/test-days.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { type BookingFilter, listBookings } from '../../db/bookings/bookings.db.ts'

/** Bookings in scope, in order of day. */
export async function findBookings(
  context: Context,
  actor: Actor,
  query: BookingFilter & { limit: number; after?: string | undefined },
): Promise<{ items: Booking[]; next: string | null }> {
  const key = fromCursor(query.after, ['day', 'uuid'])
  const after = key && { on: String(key[0]), id: String(key[1]) }
  const scope = await scopeFor(context, actor)
  const rows = await listBookings(context.db, scope, query, { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ on, id }) => [on, id],
    (booking) => booking,
  )
}
