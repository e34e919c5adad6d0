import { type MeasureEra, measureEras } from '../standards/measure-eras.ts'
import type { ReadingCount } from '../statistics/readings/band.ts'
import { distinctVersions } from './pool-measures.ts'
import { tallyLayout } from './tally-layout.ts'
import { byStandard, type OfVersion } from './version-counts.ts'

/** Readings of one gauge of one measure, over the versions that define the measure alike. */
export interface PooledGauge extends MeasureEra {
  readonly standard: string
  readonly gauge: string
  /** The newest of the versions; they agree on the band. */
  readonly definedIn: number
  readonly overridden: number
  /** By the value that stands for a bin, from low to high; see `readingGrid` on what is rounded. */
  readonly readings: readonly ReadingCount[]
}

/**
 * Pools the reading counters of tallies by measure and gauge, over versions only where the measure did not change.
 * In: for each version with tests its summed counters. Out: in the order of standards and definitions; gauges never read
 * are left out.
 */
export function poolReadings(rows: readonly OfVersion<{ readonly readings: readonly number[] }>[]): PooledGauge[] {
  return [...byStandard(rows)].flatMap(([standard, ofStandard]) => {
    const eras = measureEras(distinctVersions(ofStandard))
    const counters = new Map<MeasureEra, Map<string, { from: OfVersion<unknown>['of']; counts: readonly number[] }>>()
    for (const { of, readings } of ofStandard) {
      for (const { measure, gauge, start, grid } of tallyLayout(of.definition).gauges) {
        const era = eras.get(of.version)!.get(measure)!
        const gauges = counters.get(era) ?? new Map()
        const own = readings.slice(start, start + 1 + grid.size)
        const before: readonly number[] | undefined = gauges.get(gauge)?.counts
        gauges.set(gauge, { from: of, counts: before ? own.map((count, i) => count + before[i]!) : own })
        counters.set(era, gauges)
      }
    }
    return [...counters].flatMap(([era, gauges]) =>
      [...gauges].flatMap(([gauge, { from, counts }]) => {
        const [overridden, ...bins] = counts as [number, ...number[]]
        const { grid } = tallyLayout(from.definition).gauges.find(
          (one) => one.measure === era.measure && one.gauge === gauge,
        )!
        const readings = bins
          .map((count, place) => ({ value: grid.valueAt(place), count }))
          .filter(({ count }) => count > 0)
        return readings.length === 0 ? [] : [{ ...era, standard, gauge, definedIn: from.version, overridden, readings }]
      }),
    )
  })
}
