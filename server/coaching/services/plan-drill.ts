import type { DrillPlan } from '../../contract/coaching/coaching.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import { drillOrder } from '../../domain/coaching/drill-order.ts'
import { measureHistories } from '../../domain/coaching/measure-history.ts'
import { measureEras } from '../../domain/standards/measure-eras.ts'
import { rateOf } from '../../findings/services/to-rate.ts'
import type { CandidateTest } from '../db/coaching.db.ts'
import type { UnitRates } from './unit-rates.ts'

/**
 * What to drill for a standard, measure by measure. In: the day asked about and a candidate's tests of any standard, in
 * order. Out: null where no version is published. The measures are those of the version in force that day, or else the newest.
 */
export function planDrill(
  { standards }: Catalogue,
  standard: string,
  today: string,
  tests: readonly CandidateTest[],
  unit: UnitRates,
): DrillPlan | null {
  const versions = (standards.get(standard) ?? []).filter(({ publishedAt }) => publishedAt !== null)
  const current = versions.findLast(({ effectiveFrom }) => effectiveFrom <= today) ?? versions.at(-1)
  if (!current) return null
  const own = tests.filter((test) => test.standard === standard)
  const histories = measureHistories(
    own,
    new Map(versions.map((one) => [one.version, one.definition])),
    current.definition,
  )
  const eras = measureEras(versions)
  const share = (measure: string) => {
    const { count, n } = unit(standard, measure)
    return n === 0 ? null : count / n
  }
  const otherVersions = (measure: string) => {
    const alike = eras.get(current.version)?.get(measure)?.versions ?? []
    const decided = histories.find((one) => one.measure === measure)?.decided ?? []
    return [...new Set(decided.map(({ version }) => version))].filter((version) => !alike.includes(version))
  }
  const items = drillOrder(histories, share).map((drill) => ({
    ...drill,
    otherVersions: otherVersions(drill.measure),
    unit: rateOf(unit(standard, drill.measure)),
  }))
  return { standard, version: current.version, tests: own.length, items }
}
