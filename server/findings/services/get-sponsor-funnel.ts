import type { Context } from '../../context/context.ts'
import type { UnpagedFindingsQuery } from '../../contract/findings/query.ts'
import type { SponsorFunnelFindings } from '../../contract/findings/sponsor-funnel.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { coachingFunnel } from '../../domain/statistics/passes/coaching-funnel.ts'
import { findingsQuery } from './findings-query.ts'
import { gatherCredits } from './gather-credits.ts'
import { getBasis } from './get-basis.ts'
import { judgeSponsors } from './judge-sponsors.ts'
import { rateOf } from './to-rate.ts'

/** The figures of the unit that sponsors stand beside: their common rate and the limits around it. */
export async function getSponsorFunnel(
  context: Context,
  actor: Actor,
  query: UnpagedFindingsQuery,
): Promise<SponsorFunnelFindings> {
  const question = await findingsQuery(context, actor, query)
  const [{ unit, people }, judged, basis] = await Promise.all([
    gatherCredits(context, question.filter, 'sponsor'),
    judgeSponsors(context, question),
    getBasis(context, question.filter),
  ])
  const count = people.reduce((sum, { all }) => sum + all.count, 0)
  const n = people.reduce((sum, { all }) => sum + all.n, 0)
  return {
    rate: rateOf({ count, n }),
    sponsors: people.length,
    ...coachingFunnel([...judged.values()]),
    withoutSponsor: { attempts: unit.all.n - n, passes: unit.all.count - count },
    basis,
  }
}
