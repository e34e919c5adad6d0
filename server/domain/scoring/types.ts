/** The part of a standard's version that scoring looks at. Percent and bands are decimals as text, kept exact. */
export interface ScoredStandard {
  readonly rule: { readonly trials: number; readonly needed: number; readonly percent: string }
  readonly majors: readonly { readonly code: string; readonly faults: readonly { readonly code: string }[] }[]
  readonly minors: readonly {
    readonly code: string
    readonly gauges: readonly string[]
    readonly faults: readonly { readonly code: string }[]
  }[]
  readonly gauges: readonly Gauge[]
  readonly calls: readonly { readonly measure: string; readonly trial: number }[]
}

/** Something measured; a null or absent limit is no limit. `low` and `high` name the fault a reading outside the band adds. */
export interface Gauge {
  readonly code: string
  readonly min?: string | null
  readonly max?: string | null
  readonly low?: string | null
  readonly high?: string | null
}

export type Mark = 'correct' | 'incorrect'

export interface Reading {
  readonly trial: number
  readonly gauge: string
  readonly value: string
  readonly override?: string | null
}

export interface TrialFault {
  readonly trial: number
  readonly code: string
}

export interface MarkedMinor {
  readonly code: string
  readonly trials: readonly (Mark | null)[]
  readonly faults?: readonly TrialFault[]
  readonly readings?: readonly Reading[]
}

export interface MarkedMajor {
  readonly code: string
  readonly mark?: 'GO' | 'NO-GO' | null
  readonly atCall?: number | null
  readonly faults?: readonly string[]
}

/** What a grader wrote on a sheet, as far as scoring is concerned. */
export interface Marks {
  readonly majors: readonly MarkedMajor[]
  readonly minors: readonly MarkedMinor[]
  readonly void?: { readonly kind: string; readonly text?: string } | null
  readonly outcomeOnly?: 'GO' | 'NO-GO' | null
}

export interface MinorScore {
  readonly code: string
  /** Null while the measure is undecided on an unfinished sheet. */
  readonly outcome: 'GO' | 'NO-GO' | 'not tested' | null
  readonly correct: number
  readonly incorrect: number
  readonly faults: readonly TrialFault[]
}

interface ScoreFields {
  readonly minimum: number | null
  readonly go: number
  readonly noGo: number
  readonly minors: readonly MinorScore[]
}

export type ClosedScore = ScoreFields & {
  readonly ending: 'completed' | 'stopped' | 'void' | 'recorded'
  readonly outcome: 'GO' | 'NO-GO' | 'VOID'
  readonly notTested: number
}

export type RunningScore = ScoreFields & {
  readonly ending: 'unfinished'
  readonly outcome: null
  readonly open: number
  readonly stillNeeded: number
  readonly reachable: boolean
}

export type SheetScore = ClosedScore | RunningScore

/** One malformed place on a sheet: a JSON pointer, the rule it breaks, and what to do. */
export interface Malformed {
  readonly pointer: string
  readonly rule: MalformedRule
  readonly detail: string
}

export type MalformedRule =
  | 'unknown-major'
  | 'repeated-major'
  | 'unknown-measure'
  | 'repeated-measure'
  | 'unknown-mark'
  | 'too-many-trials'
  | 'blank-between-marks'
  | 'unknown-fault'
  | 'repeated-fault'
  | 'fault-on-blank'
  | 'gauge-not-of-measure'
  | 'repeated-reading'
  | 'reading-on-blank'
  | 'reading-value'
  | 'override-inside-band'
  | 'override-blank'
  | 'at-call'
  | 'mark-after-end'
  | 'beside-outcome-only'
