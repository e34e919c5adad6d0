import type { PlainDate } from '../calendar/plain-date.ts'
import type { MarkedMajor, SheetScore } from '../scoring/types.ts'

/** What one counted attempt adds to the tallies of a unit. Counts are whole numbers. */
export interface Contribution {
  readonly standardId: string
  readonly unitId: string | null
  readonly day: PlainDate
  readonly arm: string | null
  readonly kind: 'first' | 'retest'
  readonly sponsorId: string | null
  readonly passed: boolean
  readonly measures: readonly MeasureCount[]
  readonly faults: readonly FaultCount[]
}

interface MeasureCount {
  readonly measure: string
  readonly major: boolean
  readonly tested: number
  readonly noGo: number
  readonly trials: number
  readonly incorrect: number
}

interface FaultCount {
  readonly measure: string
  readonly major: boolean
  readonly fault: string
  readonly count: number
}

/**
 * The measures and faults of a sheet as the tallies count them: a minor is tested when it was decided, its trials are the
 * marked ones by their effective marks, also where the test was stopped before it was decided; a major is tested when it
 * was marked. An outcome-only record has none.
 */
export function countsOf(score: SheetScore, majors: readonly MarkedMajor[]): Pick<Contribution, 'measures' | 'faults'> {
  if (score.ending === 'recorded') return { measures: [], faults: [] }
  const minorCounts = score.minors.map(({ code, outcome, correct, incorrect }) => ({
    measure: code,
    major: false,
    tested: outcome === 'GO' || outcome === 'NO-GO' ? 1 : 0,
    noGo: outcome === 'NO-GO' ? 1 : 0,
    trials: correct + incorrect,
    incorrect,
  }))
  const majorCounts = majors.flatMap(({ code, mark }) => {
    if (mark == null) return []
    const noGo = mark === 'NO-GO' ? 1 : 0
    return [{ measure: code, major: true, tested: 1, noGo, trials: 1, incorrect: noGo }]
  })
  const faults = new Map<string, FaultCount>()
  const add = (measure: string, major: boolean, fault: string) => {
    const key = JSON.stringify([measure, major, fault])
    faults.set(key, { measure, major, fault, count: (faults.get(key)?.count ?? 0) + 1 })
  }
  for (const minor of score.minors) for (const { code } of minor.faults) add(minor.code, false, code)
  for (const major of majors) for (const code of major.faults ?? []) add(major.code, true, code)
  return {
    measures: [...minorCounts, ...majorCounts].filter(({ trials }) => trials > 0),
    faults: [...faults.values()],
  }
}
