import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { SponsorshipEndBody } from '../../contract/soldiers/soldiers.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict, invalid, notFound } from '../../errors.ts'
import { insertNotices } from '../../notices/db/news.db.ts'
import { readSponsorship, endSponsorship as setEnd } from '../db/soldier-records.db.ts'
import { recordAboutSoldier } from './record-about-soldier.ts'

/**
 * A sponsorship ends after a day, which is its last; sheets of the candidate are judged again, and both
 * are told. One with an end can be ended
 * earlier or later. Throws an AppError where it begins only after that day.
 */
export async function endSponsorship(
  context: Context,
  actor: Actor,
  candidateId: string,
  id: string,
  { on }: SponsorshipEndBody,
): Promise<{ id: string }> {
  requireAction(actor, 'manage-people')
  return recordAboutSoldier(context, actor, candidateId, async (tx) => {
    const found = await readSponsorship(tx, candidateId, id)
    if (!found) throw notFound('sponsorship')
    if (on < found.from) {
      throw invalid('ends-before-it-began', '/on', `It began on ${found.from}; end it on that day or later.`)
    }
    if (found.to === on) throw conflict('ended-already', `This sponsorship ends on ${on} already.`)
    await setEnd(tx, id, on)
    const news = { kind: 'sponsor ended' as const, aboutId: candidateId, to: [candidateId, found.sponsorId], day: on }
    await insertNotices(tx, context.clock(), [news], actor.soldierId)
    return {
      id,
      entry: { action: 'sponsorship.ended', before: found, after: { ...found, to: on } },
      triggers: [{ soldierId: candidateId }],
    }
  })
}
