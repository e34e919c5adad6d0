/** What the pages need of a finding about a minor measure: decided and NO-GO, and the faults behind it. */
export interface MeasureCounts {
  standard: string
  measure: string
  tested: number
  noGo: number
  faults: readonly { code: string; count: number }[]
}
