import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { BookingPlan, BookingPlanBody } from '../../../contract/test-days/bookings.ts'
import { inTransaction } from '../../../db/transaction.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { listFreeSlotsOf } from '../../db/bookings/slots.db.ts'
import { propose } from './propose.ts'
import { requireWanted } from './require-wanted.ts'

/** Proposes who of the candidates gets which free slot of these test days; those named first come first. Stores nothing. */
export async function planBookings(context: Context, actor: Actor, body: BookingPlanBody): Promise<BookingPlan> {
  requireAction(actor, 'plan-test-days')
  const scope = await scopeFor(context, actor)
  return inTransaction(context.db, async (tx) => {
    const catalogue = await context.catalogue.current(tx)
    await requireWanted(tx, catalogue, body.wanted, '/wanted')
    const now = context.clock()
    const slots = await listFreeSlotsOf(tx, scope, body.testDayIds, now)
    const wanted = body.wanted.map((one) => ({ ...one, movedId: null }))
    return propose(tx, catalogue, wanted, slots, { now })
  })
}
