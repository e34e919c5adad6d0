import type { Context } from '../../context/context.ts'
import type { UnpagedFindingsQuery } from '../../contract/findings/query.ts'
import type { SponsorFunnelFindings } from '../../contract/findings/sponsor-funnel.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { funnelLimits } from '../../domain/statistics/control/funnel-limits.ts'
import { fitBetaBinomial } from '../../domain/statistics/shrinkage/fit-beta-binomial.ts'
import { findingsQuestion } from './findings-question.ts'
import { type Credit, gatherCredits } from './gather-credits.ts'
import { getBasis } from './get-basis.ts'
import { sumCredits } from './sum-credits.ts'
import { rateOf } from './to-rate.ts'

/** Enough points for smooth lines. */
const LINES = 60

/** The figures of the unit that sponsors stand beside: their common rate, its funnel, and how sponsors spread around it. */
export async function getSponsorFunnel(
  context: Context,
  actor: Actor,
  query: UnpagedFindingsQuery,
): Promise<SponsorFunnelFindings> {
  const { filter } = await findingsQuestion(context, actor, query)
  const [{ unit, people }, basis] = await Promise.all([
    gatherCredits(context, filter, 'sponsor'),
    getBasis(context, filter),
  ])
  const credited = sumCredits(people, 'all')
  const withoutSponsor = { attempts: unit.all.n - credited.n, passes: unit.all.count - credited.count }
  return { all: funnelOf(people, 'all'), first: funnelOf(people, 'first'), withoutSponsor, basis }
}

function funnelOf(people: readonly Credit[], which: 'all' | 'first'): SponsorFunnelFindings['all'] {
  const shares = people.map((person) => person[which]).filter(({ n }) => n > 0)
  const common = sumCredits(people, which)
  const most = shares.reduce((largest, { n }) => Math.max(largest, n), 0)
  const hasLimits = common.count > 0 && common.count < common.n
  const fit = fitBetaBinomial(shares)
  return {
    rate: rateOf(common),
    sponsors: shares.length,
    mostAttempts: most,
    lines: hasLimits
      ? steps(most).map((attempts) => ({ attempts, ...funnelLimits(common.count / common.n, attempts) }))
      : [],
    spread: {
      kind: fit.kind,
      alpha: fit.kind === 'fitted' ? fit.alpha : null,
      beta: fit.kind === 'fitted' ? fit.beta : null,
    },
  }
}

/** Every number of attempts to the most, or as many of them evenly spaced by ratio as make a smooth line. */
function steps(most: number): number[] {
  if (most <= LINES) return Array.from({ length: most }, (_, i) => i + 1)
  const ratio = most ** (1 / (LINES - 1))
  return [...new Set(Array.from({ length: LINES }, (_, i) => Math.round(ratio ** i)))]
}
