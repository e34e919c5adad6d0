import { requireAction } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import type { ReviewBody } from '../../../contract/soldiers/soldiers.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { insertReview } from '../../../soldiers/db/soldier-records.db.ts'
import { recordAboutSoldier, requireStandard } from '../../../soldiers/services/record-about-soldier.ts'

/** Records the review that repeated NO-GOs call for. */
export async function addReview(context: Context, actor: Actor, soldierId: string, body: ReviewBody) {
  requireAction(actor, 'manage-people')
  return recordAboutSoldier(context, actor, soldierId, async (tx, catalogue) => {
    requireStandard(catalogue, body.standard)
    return {
      id: await insertReview(tx, soldierId, body),
      entry: { action: 'review.added', after: body },
      triggers: [{ soldierId }],
    }
  })
}
