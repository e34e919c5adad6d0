import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import { shareSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { invalid, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { readBookedPeople, updateSecondGrader } from '../db/second-graders.db.ts'

/** Says who grades a booked attempt as the second, independently of the first; null takes it back. */
export async function setSecondGrader(
  context: Context,
  actor: Actor,
  bookingId: string,
  graderId: string | null,
): Promise<{ id: string }> {
  requireAction(actor, 'plan-test-days')
  return recorded(context, actor, async (tx, note) => {
    const booked = await readBookedPeople(tx, bookingId)
    if (!booked) throw notFound('booking')
    if (graderId !== null) {
      if ((await shareSoldiers(tx, [graderId])).length === 0) {
        throw invalid('unknown-person', '/graderId', 'Nobody on the roster has this id.')
      }
      if (graderId === booked.candidateId || graderId === booked.graderId) {
        const detail = 'The second grader is another person than the candidate and the first grader; name another.'
        throw invalid('second-is-another', '/graderId', detail)
      }
    }
    await updateSecondGrader(tx, bookingId, graderId)
    note({
      action: 'booking.second-grader-set',
      subject: { kind: 'soldier', id: booked.candidateId },
      before: { bookingId, graderId: booked.secondGraderId },
      after: { bookingId, graderId },
    })
    return { id: bookingId }
  })
}
