import type { Context } from '../../context/context.ts'
import type { SponsorMeasures, SponsorMeasuresQuery } from '../../contract/findings/sponsor-measures.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { sponsorMeasures } from '../../domain/tallies/sponsor-measures.ts'
import { notFound } from '../../errors.ts'
import { readCoachedPatterns } from '../db/findings-sponsor-measures.db.ts'
import { findingsQuery } from './findings-query.ts'
import { getBasis } from './get-basis.ts'
import { rateOf } from './to-rate.ts'

/** What all candidates of one sponsor fail, measure by measure, beside those of all others. A sponsor may ask about themselves. */
export async function getSponsorMeasures(
  context: Context,
  actor: Actor,
  { sponsorId, ...query }: SponsorMeasuresQuery,
): Promise<SponsorMeasures> {
  const { filter, view, ofVersion } = await findingsQuery(context, actor, query)
  if (view.sponsorIds !== null && !view.sponsorIds.includes(sponsorId)) throw notFound('soldier')
  const [rows, basis] = await Promise.all([
    readCoachedPatterns(context.db, filter, sponsorId),
    getBasis(context, filter),
  ])
  const items = sponsorMeasures(rows.map(ofVersion)).map(({ versions, isCurrent, own, others, ...one }) => ({
    ...one,
    versions: [...versions],
    current: isCurrent,
    own: rateOf(own),
    others: rateOf(others),
  }))
  return { items, basis }
}
