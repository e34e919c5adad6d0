import type { SheetAssessment } from '../../../server/domain/assessment/types.ts'
import type { Contribution } from '../../../server/domain/tallies/contribution.ts'
import type { ScoredSheet } from '../generate/judge-career.ts'

/** A row of a table with its columns in snake case. */
export type Row = Readonly<Record<string, unknown>>

/** What of a soldier's spans a sheet changes: rows that go, by key, and rows that come or become others. */
export interface SpanChange {
  readonly gone: readonly Row[]
  readonly now: readonly Row[]
}

/** A sheet to store, with everything that storing it writes worked out beforehand. */
export interface PreparedSheet {
  readonly sheet: ScoredSheet
  /** The body as it goes over the wire. */
  readonly json: string
  readonly assessment: SheetAssessment
  readonly contribution: Contribution | null
  readonly standings: SpanChange
  readonly retests: SpanChange
  readonly awards: SpanChange
}
