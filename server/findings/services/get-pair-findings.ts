import type { Context } from '../../context/context.ts'
import type { PairFindings } from '../../contract/findings/pairs.ts'
import type { UnpagedFindingsQuery } from '../../contract/findings/query.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { failingTogether } from '../../domain/statistics/proportions/failing-together.ts'
import { poolPairs } from '../../domain/tallies/pool-pairs.ts'
import { readPatterns } from '../db/findings-patterns.db.ts'
import { findingsQuery } from './findings-query.ts'
import { getBasis } from './get-basis.ts'

/** Of the pairs called together or apart, at most this share is expected to be false. */
const FALSE_SHARE = 0.05

/** Which minor measures of a standard are failed together beyond what ability makes of it; the pairs of one standard are one family of tests. */
export async function getPairFindings(
  context: Context,
  actor: Actor,
  query: UnpagedFindingsQuery,
): Promise<PairFindings> {
  const { filter, ofVersion } = await findingsQuery(context, actor, query)
  const [patterns, basis] = await Promise.all([readPatterns(context.db, filter), getBasis(context, filter)])
  const items = [...poolPairs(patterns.map(ofVersion))].flatMap(([standard, pairs]) =>
    failingTogether(pairs, FALSE_SHARE).map((pair) => {
      const { first, second, n, counts, verdict, versions, isCurrent } = pair
      const judged =
        pair.verdict === 'undefined'
          ? { expected: null, phi: null, p: null, adjustedP: null, reason: pair.reason }
          : { expected: pair.expected, phi: pair.phi, p: pair.p, adjustedP: pair.adjustedP, reason: null }
      return { standard, first, second, n, ...counts, verdict, versions: [...versions], current: isCurrent, ...judged }
    }),
  )
  return { items, falseShare: FALSE_SHARE, basis }
}
