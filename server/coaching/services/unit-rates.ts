import type { Context } from '../../context/context.ts'
import type { Share } from '../../domain/statistics/proportions/share.ts'
import { coverPeriod } from '../../domain/tallies/cover-period.ts'
import { poolMeasures } from '../../domain/tallies/pool-measures.ts'
import { readMeasureTallies } from '../../findings/db/findings-measures.db.ts'

/** How often first-timers of the whole unit were NO-GO, by standard and measure. */
export type UnitRates = (standard: string, measure: string) => Share

const NONE: Share = { count: 0, n: 0 }

/**
 * NO-GO of tested among all first tests ever on record, by measure of each standard asked about as its newest version defines
 * it, in one question. It is the sum of the whole unit and names nobody, so whoever sees a candidate may see it.
 */
export async function readUnitRates(context: Context, wanted: ReadonlySet<string>): Promise<UnitRates> {
  if (wanted.size === 0) return () => NONE
  const { standards } = await context.catalogue.current(context.db)
  const versions = new Map(
    [...wanted].flatMap((standard) =>
      (standards.get(standard) ?? []).map((one) => [one.id, { ...one, standard }] as const),
    ),
  )
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
      .map(({ standard, measure, noGo, tested }) => [`${standard} ${measure}`, { count: noGo, n: tested }]),
  )
  return (standard, measure) => rates.get(`${standard} ${measure}`) ?? NONE
}
