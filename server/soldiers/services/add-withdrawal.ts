import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { WithdrawalBody } from '../../contract/soldiers/soldiers.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { insertWithdrawal } from '../db/soldier-records.db.ts'
import { recordAboutSoldier, requireCertification } from './record-about-soldier.ts'

/** A soldier leaves training for a certification on a day. */
export async function addWithdrawal(context: Context, actor: Actor, soldierId: string, body: WithdrawalBody) {
  requireAction(actor, 'manage-people')
  return recordAboutSoldier(context, actor, soldierId, async (tx, catalogue) => {
    const { id } = requireCertification(catalogue, body.certification)
    return {
      id: await insertWithdrawal(tx, soldierId, id, body),
      entry: { action: 'withdrawal.added', after: body, reason: body.reason },
      triggers: [{ soldierId }],
    }
  })
}
