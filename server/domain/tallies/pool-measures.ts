import { type MeasureEra, measureEras } from '../standards/measure-eras.ts'
import { MEASURE_COUNTERS, tallyLayout } from './tally-layout.ts'
import { byStandard, type OfVersion } from './version-counts.ts'

/** Counts of one measure over the versions of its standard that define it alike. Of majors, a trial is the one mark. */
export interface PooledMeasure extends MeasureEra {
  readonly standard: string
  readonly tested: number
  /** Tests with marks on which it was not decided, for a major ended them before. */
  readonly notReached: number
  readonly noGo: number
  readonly trials: number
  readonly incorrect: number
  readonly faults: readonly { readonly code: string; readonly count: number }[]
}

interface MeasureCounters {
  /** Tests with marks; left out where it is not asked what was not reached. */
  readonly marked?: number
  readonly measures: readonly number[]
  /** Left out where faults are not asked for. */
  readonly faults?: readonly number[]
}

/**
 * Pools the counters of tallies measure by measure, over versions only where the measure did not change.
 * In: for each version with tests its summed counters; a version may come several times. Out: one row a measure and
 * era, by standard in the order in which measures first come; measures without a trial are left out, and faults never
 * noted.
 */
export function poolMeasures(rows: readonly OfVersion<MeasureCounters>[]): PooledMeasure[] {
  return [...byStandard(rows)].flatMap(([standard, ofStandard]) => {
    const eras = measureEras(distinctVersions(ofStandard))
    return [...poolByEra(standard, ofStandard, eras).values()]
      .filter(({ trials }) => trials > 0)
      .map((one) => ({ ...one, faults: one.faults.filter(({ count }) => count > 0) }))
  })
}

/** The same for the rows of one standard, by era, with whatever was never tried or noted. */
export function poolByEra(
  standard: string,
  rows: readonly OfVersion<MeasureCounters>[],
  eras: ReadonlyMap<number, ReadonlyMap<string, MeasureEra>>,
): Map<MeasureEra, PooledMeasure> {
  const pooled = new Map<MeasureEra, PooledMeasure>()
  for (const { of, marked, measures, faults } of rows) {
    const layout = tallyLayout(of.definition)
    layout.measures.forEach(({ code }, place) => {
      const own = measures.slice(place * MEASURE_COUNTERS) as [number, number, number, number]
      const [tested, noGo, trials, incorrect] = own
      const noted = layout.faults.flatMap(({ measure, fault }, i) =>
        measure === code ? [{ code: fault, count: faults?.[i] ?? 0 }] : [],
      )
      const era = eras.get(of.version)!.get(code)!
      const before = pooled.get(era)
      pooled.set(era, {
        ...era,
        standard,
        tested: tested + (before?.tested ?? 0),
        notReached: (marked ?? tested) - tested + (before?.notReached ?? 0),
        noGo: noGo + (before?.noGo ?? 0),
        trials: trials + (before?.trials ?? 0),
        incorrect: incorrect + (before?.incorrect ?? 0),
        faults: noted.map((fault, i) => ({ ...fault, count: fault.count + (before?.faults[i]?.count ?? 0) })),
      })
    })
  }
  return pooled
}

/** Each version once. */
export function distinctVersions<Row extends OfVersion<unknown>>(rows: readonly Row[]): Row['of'][] {
  return [...new Map(rows.map(({ of }) => [of.version, of])).values()]
}
