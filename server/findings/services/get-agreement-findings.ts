import type { Context } from '../../context/context.ts'
import type { Agreement as AgreementAnswer, AgreementFindings } from '../../contract/findings/agreement.ts'
import type { UnpagedFindingsQuery } from '../../contract/findings/query.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Agreement } from '../../domain/statistics/agreement/agreement.ts'
import { cohenKappa } from '../../domain/statistics/agreement/cohen-kappa.ts'
import { fleissKappa } from '../../domain/statistics/agreement/fleiss-kappa.ts'
import { gwetAc1 } from '../../domain/statistics/agreement/gwet-ac1.ts'
import { poolRatings } from '../../domain/tallies/pool-ratings.ts'
import { readGradedAlike } from '../db/findings-agreement.db.ts'
import { findingsQuery } from './findings-query.ts'
import { LEVEL } from './get-basis.ts'

/** How far graders agree on attempts that two or more of them graded, on the whole test and on each measure. */
export async function getAgreementFindings(
  context: Context,
  actor: Actor,
  query: UnpagedFindingsQuery,
): Promise<AgreementFindings> {
  const { filter, ofVersion } = await findingsQuery(context, actor, query)
  const { patterns, leftOut } = await readGradedAlike(context.db, filter)
  const pooled = poolRatings(patterns.map((one) => ofVersion({ ...one, others: one.others.map(ofVersion) })))
  const items = pooled.map(({ standard, measure, major, versions, isCurrent, table, rated }) => {
    const [[bothGo, firstGoOnly], [secondGoOnly, bothNoGo]] = table
    return {
      standard,
      measure,
      major,
      versions: [...versions],
      current: isCurrent,
      attempts: rated.reduce((sum, { sheets }) => sum + sheets, 0),
      table: { bothGo, firstGoOnly, secondGoOnly, bothNoGo },
      cohen: toAnswer(cohenKappa(table, LEVEL)),
      fleiss: toAnswer(fleissKappa(rated, LEVEL)),
      // The bands were made for kappa; AC1 is higher where nearly all are GO.
      ac1: { ...toAnswer(gwetAc1(rated, LEVEL)), band: null },
    }
  })
  const attempts = patterns.reduce((sum, one) => sum + one.attempts, 0)
  return { items, basis: { level: LEVEL, attempts, leftOut } }
}

function toAnswer(judged: Agreement): AgreementAnswer {
  if (judged.kind === 'undefined') {
    return { value: null, interval: null, observed: null, byChance: null, band: null, reason: judged.reason }
  }
  const { value, interval, observed, byChance, band } = judged
  return { value, interval, observed, byChance, band, reason: null }
}
