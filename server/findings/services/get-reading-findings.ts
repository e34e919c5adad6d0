import type { Context } from '../../context/context.ts'
import type { UnpagedFindingsQuery } from '../../contract/findings/query.ts'
import type { ReadingFindings } from '../../contract/findings/readings.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { bandShares } from '../../domain/statistics/readings/band-shares.ts'
import { readingHistogram } from '../../domain/statistics/readings/reading-histogram.ts'
import { poolReadings } from '../../domain/tallies/pool-readings.ts'
import { readReadingTallies } from '../db/findings-readings.db.ts'
import { findingsQuery } from './findings-query.ts'
import { getBasis } from './get-basis.ts'
import { toRate } from './to-rate.ts'

/** Readings of every gauge of every measure: how many lie below, inside and above the band, and how they are spread. */
export async function getReadingFindings(
  context: Context,
  actor: Actor,
  query: UnpagedFindingsQuery,
): Promise<ReadingFindings> {
  const { filter, ofVersion } = await findingsQuery(context, actor, query)
  const [tallies, basis] = await Promise.all([readReadingTallies(context.db, filter), getBasis(context, filter)])
  const { standards } = await context.catalogue.current(context.db)
  const items = poolReadings(tallies.map(ofVersion)).map((pooled) => {
    const { standard, measure, versions, isCurrent, overridden, definedIn, readings } = pooled
    const { definition } = standards.get(standard)!.find(({ version }) => version === definedIn)!
    const {
      code: gauge,
      title,
      unit,
      min,
      max,
      target = null,
    } = definition.gauges.find(({ code }) => code === pooled.gauge)!
    const band = { min, max }
    const shares = bandShares(readings, band)
    return {
      standard,
      measure,
      gauge,
      versions: [...versions],
      current: isCurrent,
      title,
      unit,
      min,
      max,
      target,
      readings: shares.readings,
      overridden,
      low: toRate(shares.low),
      within: toRate(shares.within),
      high: toRate(shares.high),
      bars: readingHistogram(readings, band),
    }
  })
  return { items, basis }
}
