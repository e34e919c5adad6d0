import type { Context } from '../../context/context.ts'
import type { Coefficient, QualityFindings, QualityQuery } from '../../contract/findings/quality.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { itemAnalysis } from '../../domain/statistics/test-theory/item-analysis.ts'
import type { ItemRest } from '../../domain/statistics/test-theory/item-rest-correlation.ts'
import type { Reliability } from '../../domain/statistics/test-theory/kuder-richardson.ts'
import { poolResponses } from '../../domain/tallies/pool-responses.ts'
import { readPatterns } from '../db/findings-patterns.db.ts'
import { findingsQuery } from './findings-query.ts'
import { getBasis } from './get-basis.ts'
import { toRate } from './to-rate.ts'

/** How well each standard works as a test: difficulty and item–total correlation of its minors, KR-20 with and without. */
export async function getQualityFindings(
  context: Context,
  actor: Actor,
  query: QualityQuery,
): Promise<QualityFindings> {
  const { filter, ofVersion } = await findingsQuery(context, actor, query)
  const [patterns, basis] = await Promise.all([readPatterns(context.db, filter), getBasis(context, filter)])
  const items = poolResponses(patterns.map(ofVersion)).map((pooled) => {
    const { standard, versions, isCurrent, measures, undecided, recorded } = pooled
    const { sheets, reliability, items: analysed } = itemAnalysis(pooled.complete, undecided + recorded)
    return {
      standard,
      versions: [...versions],
      current: isCurrent,
      sheets,
      leftOut: { undecided, recorded },
      reliability: toCoefficient(reliability),
      measures: analysed.map(({ difficulty, itemRest, ifDeleted, change, remarks }, place) => ({
        measure: measures[place]!,
        difficulty: toRate(difficulty),
        itemRest: toCoefficient(itemRest),
        ifDeleted: toCoefficient(ifDeleted),
        change,
        remarks,
      })),
    }
  })
  return { items, basis }
}

function toCoefficient(judged: Reliability | ItemRest): Coefficient {
  if (judged.kind === 'undefined') return { value: null, interval: null, reason: judged.reason }
  return { value: judged.value, interval: judged.interval, reason: null }
}
