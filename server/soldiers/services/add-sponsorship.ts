import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { SponsorshipBody } from '../../contract/soldiers/soldiers.ts'
import { shareSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { invalid } from '../../errors.ts'
import { insertSponsorship } from '../db/soldier-records.db.ts'
import { recordAboutSoldier } from './record-about-soldier.ts'

/** A sponsor coaches the candidate for a time; sheets of the candidate are judged again. */
export async function addSponsorship(context: Context, actor: Actor, candidateId: string, body: SponsorshipBody) {
  requireAction(actor, 'manage-people')
  if (body.sponsorId === candidateId) {
    throw invalid('sponsor-is-candidate', '/sponsorId', 'Nobody is their own sponsor; name another soldier.')
  }
  return recordAboutSoldier(context, actor, candidateId, async (tx) => {
    if ((await shareSoldiers(tx, [body.sponsorId])).length === 0) {
      throw invalid('unknown-person', '/sponsorId', 'Nobody on the roster has this id.')
    }
    return {
      id: await insertSponsorship(tx, candidateId, body),
      entry: { action: 'sponsorship.added', after: body },
      triggers: [{ soldierId: candidateId }],
    }
  })
}
