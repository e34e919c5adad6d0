import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { AppointmentBody } from '../../contract/soldiers/soldiers.ts'
import { lockSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { findGradedCandidates, insertAppointment } from '../db/soldier-records.db.ts'
import { recordAboutSoldier, requireStandard } from './record-about-soldier.ts'

/** A soldier may grade a standard for a time; sheets they graded of it are judged again. */
export async function addAppointment(context: Context, actor: Actor, soldierId: string, body: AppointmentBody) {
  requireAction(actor, 'manage-people')
  return recordAboutSoldier(context, actor, soldierId, async (tx, catalogue) => {
    requireStandard(catalogue, body.standard)
    const id = await insertAppointment(tx, soldierId, body)
    const candidates = await findGradedCandidates(tx, soldierId, body.standard, body.from)
    await lockSoldiers(tx, candidates)
    return {
      id,
      entry: { action: 'appointment.added', after: body },
      triggers: candidates.map((candidate) => ({ soldierId: candidate })),
    }
  })
}
