import type { Context } from '../../context/context.ts'
import type { Share } from '../../domain/statistics/proportions/share.ts'
import { coverPeriod } from '../../domain/tallies/cover-period.ts'
import { poolMeasures } from '../../domain/tallies/pool-measures.ts'
import { readMeasureTallies } from '../../findings/db/findings-measures.db.ts'

/** How often first-timers of the whole unit were NO-GO, by measure. */
export type UnitRates = (measure: string) => Share

const NONE: Share = { count: 0, n: 0 }

/**
 * NO-GO of tested among all first attempts on record, by measure of one standard as its newest version defines it. It is
 * the sum of the whole unit and names nobody, so whoever sees a candidate may see it.
 */
export async function readUnitRates(context: Context, standard: string): Promise<UnitRates> {
  const { standards } = await context.catalogue.current(context.db)
  const versions = new Map((standards.get(standard) ?? []).map((one) => [one.id, { ...one, standard }]))
  const filter = {
    versionIds: [...versions.keys()],
    unitId: undefined,
    arm: undefined,
    attempts: 'first' as const,
    from: null,
    to: null,
    periods: coverPeriod(null, null),
  }
  const tallies = await readMeasureTallies(context.db, filter, null)
  const pooled = poolMeasures(tallies.map((row) => ({ ...row, of: versions.get(row.versionId)! })))
  const rates = new Map(
    pooled
      .filter(({ isCurrent }) => isCurrent)
      .map(({ measure, noGo, tested }) => [measure, { count: noGo, n: tested }]),
  )
  return (measure) => rates.get(measure) ?? NONE
}
