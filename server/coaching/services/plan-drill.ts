import type { DrillPlan } from '../../contract/coaching/coaching.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import { drillOrder } from '../../domain/coaching/drill-order.ts'
import { measureHistories } from '../../domain/coaching/measure-history.ts'
import type { FaultCount } from '../../domain/coaching/study-faults.ts'
import { measureEras } from '../../domain/standards/measure-eras.ts'
import { rateOf } from '../../findings/services/to-rate.ts'
import type { CandidateTest } from '../db/coaching.db.ts'
import type { UnitRates } from './unit-rates.ts'

/**
 * What to drill for a standard, measure by measure. In: the day asked about and a candidate's tests of any standard, in
 * order, with the faults noted on those of this one. Out: null where no version is published. The measures are those of the version in force that day, or else the newest.
 */
export function planDrill(
  { standards }: Catalogue,
  standard: string,
  today: string,
  candidate: { readonly tests: readonly CandidateTest[]; readonly faults: readonly FaultCount[] },
  unit: UnitRates,
): DrillPlan | null {
  const versions = (standards.get(standard) ?? []).filter(({ publishedAt }) => publishedAt !== null)
  const current = versions.findLast(({ effectiveFrom }) => effectiveFrom <= today) ?? versions.at(-1)
  if (!current) return null
  const own = candidate.tests.filter((test) => test.standard === standard)
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
    fault: mostNoted(candidate.faults, drill.measure),
    unit: rateOf(unit(standard, drill.measure)),
  }))
  return { standard, version: current.version, tests: own.length, items }
}

/** The fault noted most on a measure, by its code where several are; null: none. */
function mostNoted(faults: readonly FaultCount[], measure: string) {
  const [most] = faults
    .filter((one) => one.measure === measure)
    .sort((a, b) => b.count - a.count || (a.fault < b.fault ? -1 : 1))
  return most ? { code: most.fault, count: most.count } : null
}
