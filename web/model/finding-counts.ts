/** What the pages need of a finding about a minor measure: decided and NO-GO, and the faults behind it. */
export interface MeasureCounts {
  standard: string
  measure: string
  tested: number
  noGo: number
  faults: readonly { code: string; count: number }[]
}

/** What the pages need of a finding about a sponsor: the attempts credited to them, and how many of these were GO. */
export interface SponsorCounts {
  attempts: number
  passes: number
  firstAttempts: number
  firstPasses: number
}
