/** How often a fault of a measure was noted. */
export interface FaultCount {
  readonly measure: string
  readonly fault: string
  readonly count: number
}

/** A fault on a study sheet. */
export interface StudyFault {
  readonly fault: string
  readonly unit: number
  readonly own: number
}

/**
 * The faults of a measure in the order in which to learn them: those the unit is marked for most come first, then the
 * candidate's own; ties keep the order of the standard.
 */
export function studyFaults(
  measure: { readonly code: string; readonly faults: readonly { readonly code: string }[] },
  unit: readonly FaultCount[],
  own: readonly FaultCount[],
): StudyFault[] {
  const countIn = (counts: readonly FaultCount[], fault: string) =>
    counts
      .filter((one) => one.measure === measure.code && one.fault === fault)
      .reduce((sum, { count }) => sum + count, 0)
  return measure.faults
    .map(({ code }) => ({ fault: code, unit: countIn(unit, code), own: countIn(own, code) }))
    .sort((a, b) => b.unit - a.unit || b.own - a.own)
}
