import { placeInBand } from './band.ts'
import type { Gauge, Mark, MarkedMinor, TrialFault } from './types.ts'

/** The trials of one measure after its readings have spoken: marks by trial (blank is null) and faults by trial, then code. */
export interface EffectiveTrials {
  readonly marks: readonly (Mark | null)[]
  readonly faults: readonly TrialFault[]
}

/**
 * What counts of one well-formed measure: a reading outside its band without an override makes its trial incorrect and
 * adds the gauge's fault for that side; with an override the grader's mark stands. Each (trial, fault) is listed once.
 */
export function effectiveTrials(minor: MarkedMinor, gauges: ReadonlyMap<string, Gauge>): EffectiveTrials {
  const marks = [...minor.trials]
  const faults = new Map((minor.faults ?? []).map((fault) => [faultKey(fault), fault]))
  for (const reading of minor.readings ?? []) {
    const gauge = gauges.get(reading.gauge)
    if (!gauge || reading.override != null) continue
    const place = placeInBand(gauge, reading.value)
    if (place === 'inside') continue
    marks[reading.trial - 1] = 'incorrect'
    const code = place === 'low' ? gauge.low : gauge.high
    if (code != null) {
      const fault = { trial: reading.trial, code }
      faults.set(faultKey(fault), fault)
    }
  }
  return { marks, faults: [...faults.values()].map(({ trial, code }) => ({ trial, code })).sort(byTrialThenCode) }
}

const faultKey = (fault: TrialFault): string => `${fault.trial} ${fault.code}`

const byTrialThenCode = (a: TrialFault, b: TrialFault): number =>
  a.trial - b.trial || (a.code < b.code ? -1 : a.code > b.code ? 1 : 0)
