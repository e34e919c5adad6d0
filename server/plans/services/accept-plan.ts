import type { Context } from '../../context/context.ts'
import type { AcceptBody } from '../../contract/plans/plans.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict, invalid, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { refusingDuplicates } from '../../test-days/services/bookings/add-booking.ts'
import { insertPlanBookings } from '../db/plan-bookings.db.ts'
import { insertPlanNames } from '../db/plan-names.db.ts'
import { lockPlan, readAnswer, readProblem } from '../db/plans.db.ts'
import { notYet, openPlan } from './get-plan.ts'
import { acceptManning } from './manning/accept-manning.ts'
import { acceptRetests } from './retests/accept-retests.ts'

/** Accepts pairs of a plan's answer: all that are not accepted yet, or those named; in one transaction, all or none. */
export async function acceptPlan(
  context: Context,
  actor: Actor,
  id: string,
  body: AcceptBody,
): Promise<{ booked: number; moved: number; named?: number }> {
  await openPlan(context, actor, id)
  return refusingDuplicates(() =>
    recorded(context, actor, async (tx, note) => {
      const plan = await lockPlan(tx, id)
      const problem = await readProblem(tx, id)
      const answer = await readAnswer(tx, id)
      if (!plan) throw notFound('plan')
      if (!problem || !answer) throw notYet()
      const open = answer.pairs.filter((pair) => !plan.accepted.includes(pair))
      const pairs = body.pairs === 'all' ? open : body.pairs
      const strange = pairs.findIndex((pair) => !answer.pairs.includes(pair))
      if (strange !== -1)
        throw invalid('unknown-pair', `/pairs/${strange}`, 'The answer of this plan has no such pair.')
      if (pairs.some((pair) => !open.includes(pair))) {
        throw conflict('accepted-already', 'Some of these were accepted already. Look at the plan again.')
      }
      if (pairs.length === 0) throw conflict('nothing-to-accept', 'Nothing of this plan is left to accept.')
      if (plan.kind === 'manning') {
        const names = await acceptManning(context, tx, note, actor, problem, pairs)
        await insertPlanNames(tx, id, names, context.clock())
        note({ action: 'plan.accepted', subject: { kind: 'plan', id }, after: { names: names.length } })
        return { booked: 0, moved: 0, named: names.length }
      }
      const made = await acceptRetests(context, tx, note, actor, problem, pairs)
      await insertPlanBookings(tx, id, made, context.clock())
      const moved = made.filter(({ fromSlotId }) => fromSlotId !== null).length
      const after = { bookings: made.map(({ bookingId }) => bookingId) }
      note({ action: 'plan.accepted', subject: { kind: 'plan', id }, after })
      return { booked: made.length - moved, moved }
    }),
  )
}
