import type { Booking, BookingBody } from '../../contract/test-days.ts'
import { type BookingFilter, insertBooking, listBookings, testDayExists } from '../../db/bookings.db.ts'
import { isDuplicate } from '../../db/database-errors.ts'
import { shareSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict, invalid, notFound } from '../../errors.ts'
import { requireAction } from '../access/require.ts'
import { scopeFor } from '../access/scope-for.ts'
import type { Context } from '../context.ts'
import { fromCursor, toPage } from '../cursor.ts'
import { recorded } from '../record/recorded.ts'

/** Books a candidate for a standard on a test day; the same twice is a conflict. */
export async function addBooking(
  context: Context,
  actor: Actor,
  testDayId: string,
  body: BookingBody,
): Promise<{ id: string }> {
  requireAction(actor, 'plan-test-days')
  try {
    return await recorded(context, actor, async (tx, note) => {
      if (!(await testDayExists(tx, testDayId))) throw notFound('test day')
      const { standards } = await context.catalogue.current(tx)
      const standardId = standards.get(body.standard)?.[0]?.standardId
      if (!standardId) throw invalid('unknown-standard', '/standard', `There is no standard "${body.standard}".`)
      const people = [body.candidateId, ...(body.graderId ? [body.graderId] : [])]
      const known = await shareSoldiers(tx, people)
      const missing = people.find((id) => !known.includes(id))
      if (missing) {
        const pointer = missing === body.candidateId ? '/candidateId' : '/graderId'
        throw invalid('unknown-person', pointer, 'Nobody on the roster has this id.')
      }
      const id = await insertBooking(tx, testDayId, standardId, body)
      note({
        action: 'booking.added',
        subject: { kind: 'soldier', id: body.candidateId },
        after: { testDayId, ...body },
      })
      return { id }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw conflict('booked-already', 'The candidate is booked for this standard on this test day already.')
  }
}

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
