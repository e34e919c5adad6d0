import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { AwardBody } from '../../contract/soldiers/soldiers.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { insertCarriedAward } from '../db/soldier-records.db.ts'
import { recordAboutSoldier, requireCertification } from './record-about-soldier.ts'

/** Carries over an award from before the unit joined, with its evidence. */
export async function addAward(context: Context, actor: Actor, soldierId: string, body: AwardBody) {
  requireAction(actor, 'carry-over-awards')
  return recordAboutSoldier(context, actor, soldierId, async (tx, catalogue) => {
    const { id } = requireCertification(catalogue, body.certification)
    return {
      id: await insertCarriedAward(tx, soldierId, id, body),
      entry: { action: 'award.carried-over', after: body, reason: body.evidence },
      triggers: [{ soldierId, qualifiesAnewFrom: body.awardedOn }],
    }
  })
}
