import { measureEras } from '../standards/measure-eras.ts'
import type { Share } from '../statistics/proportions/share.ts'
import { distinctVersions, poolByEra } from './pool-measures.ts'
import { byStandard, type OfVersion } from './version-counts.ts'

interface MonthCounts {
  /** YYYY-MM */
  readonly month: string
  readonly attempts: number
  readonly passes: number
  readonly measures: readonly number[]
}

/** NO-GOs of all tested by month, of a measure or of the whole test (measure null, all versions). */
export interface TrendCounts {
  readonly standard: string
  readonly measure: string | null
  readonly major: boolean
  readonly versions: readonly number[]
  readonly isCurrent: boolean
  readonly byMonth: ReadonlyMap<string, Share>
}

/**
 * The months of each test and of each of its measures. In: for each version and month its summed counters. Out: by standard
 * the whole test, then its measures; versions are pooled only where the measure did not change.
 */
export function trendSeries(rows: readonly OfVersion<MonthCounts>[]): TrendCounts[] {
  return [...byStandard(rows)].flatMap(([standard, ofStandard]) => {
    const eras = measureEras(distinctVersions(ofStandard))
    const months = [...new Set(ofStandard.map(({ month }) => month))]
    const pooledIn = months.map((month) =>
      poolByEra(
        standard,
        ofStandard.filter((row) => row.month === month),
        eras,
      ),
    )
    const ofMeasures = [...poolByEra(standard, ofStandard, eras)].flatMap(([era, { trials }]): TrendCounts[] => {
      if (trials === 0) return []
      const shares = months.map((month, i): [string, Share] => {
        const { noGo = 0, tested = 0 } = pooledIn[i]!.get(era) ?? {}
        return [month, { count: noGo, n: tested }]
      })
      return [{ ...era, standard, byMonth: new Map(shares) }]
    })
    return [wholeTest(standard, ofStandard), ...ofMeasures]
  })
}

function wholeTest(standard: string, rows: readonly OfVersion<MonthCounts>[]): TrendCounts {
  const byMonth = new Map<string, Share>()
  for (const { month, attempts, passes } of rows) {
    const { count, n } = byMonth.get(month) ?? { count: 0, n: 0 }
    byMonth.set(month, { count: count + attempts - passes, n: n + attempts })
  }
  const versions = distinctVersions(rows)
    .map(({ version }) => version)
    .sort((a, b) => a - b)
  return { standard, measure: null, major: false, versions, isCurrent: true, byMonth }
}
