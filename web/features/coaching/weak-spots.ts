import type { SheetSummary } from '#contract/sheets/sheets.ts'
import { entersStatus } from './attempt-rows.ts'

export interface WeakMeasure {
  measure: string
  tested: number
  noGo: number
}

export interface FaultNoted {
  measure: string
  fault: string
  times: number
}

/** Measures by how often they were NO-GO in the tests that count; those never NO-GO are left out. Ties by tests, then code. */
export const weakMeasures = (sheets: readonly SheetSummary[]): WeakMeasure[] => {
  const byMeasure = new Map<string, WeakMeasure>()
  for (const { result } of sheets.filter(entersStatus)) {
    for (const { code, outcome } of result.minors) {
      if (outcome !== 'GO' && outcome !== 'NO-GO') continue
      const seen = byMeasure.get(code) ?? { measure: code, tested: 0, noGo: 0 }
      byMeasure.set(code, { measure: code, tested: seen.tested + 1, noGo: seen.noGo + (outcome === 'NO-GO' ? 1 : 0) })
    }
  }
  return [...byMeasure.values()]
    .filter(({ noGo }) => noGo > 0)
    .sort((a, b) => b.noGo - a.noGo || a.tested - b.tested || a.measure.localeCompare(b.measure))
}

/** Faults by how many trials they were noted on, in the tests that count. Ties by measure, then fault. */
export const faultsNoted = (sheets: readonly SheetSummary[]): FaultNoted[] => {
  const byKey = new Map<string, FaultNoted>()
  for (const { result } of sheets.filter(entersStatus)) {
    for (const { code: measure, faults } of result.minors) {
      for (const { code: fault } of faults) {
        const key = `${measure} ${fault}`
        byKey.set(key, { measure, fault, times: (byKey.get(key)?.times ?? 0) + 1 })
      }
    }
  }
  return [...byKey.values()].sort(
    (a, b) => b.times - a.times || a.measure.localeCompare(b.measure) || a.fault.localeCompare(b.fault),
  )
}
