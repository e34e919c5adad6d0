import type { PlainDate } from '../calendar/plain-date.ts'
import type { Terms } from '../certification/types.ts'

/** A test as one revision of its sheet has it. */
export interface TestOnSheet {
  readonly id: string
  readonly standard: string
  readonly version: number
  readonly arm: string | null
  /** Milliseconds since 1970. */
  readonly finishedAt: number
  readonly day: PlainDate
  readonly outcome: 'GO' | 'NO-GO' | 'VOID'
  /** Amending may make practice of a test. */
  readonly isPractice: boolean
  /** The second grader's sheet of an attempt. */
  readonly isSecond: boolean
}

export type SheetState = 'counted' | 'held' | 'rejected'

/** What became known with one entry of the record, as far as a status or a retest can hang on it. */
export type Fact =
  | { readonly kind: 'sheet'; readonly test: TestOnSheet; readonly revision: number; readonly state: SheetState }
  | { readonly kind: 'decision'; readonly sheetId: string; readonly state: SheetState }
  | {
      readonly kind: 'award'
      readonly certification: string
      readonly awardedOn: PlainDate
      readonly validThrough: PlainDate
    }
  | {
      readonly kind: 'approval'
      /** By which it is taken back, as are a refusal and an extension. */
      readonly word: string
      readonly certification: string
      readonly sheetId: string
      readonly on: PlainDate
    }
  | {
      readonly kind: 'refusal'
      readonly word: string
      readonly certification: string
      readonly sheetId: string
      readonly on: PlainDate
    }
  | {
      readonly kind: 'extension'
      readonly word: string
      readonly certification: string
      /** Of a sheet; or the day of a carried-over one. */
      readonly award: string
      readonly days: number
    }
  | { readonly kind: 'word-taken-back'; readonly word: string }
  | { readonly kind: 'withdrawal'; readonly certification: string; readonly on: PlainDate }
  | { readonly kind: 'suspension'; readonly certification: string; readonly from: PlainDate }
  | { readonly kind: 'lift'; readonly certification: string; readonly from: PlainDate; readonly on: PlainDate }
  | { readonly kind: 'review'; readonly standard: string; readonly on: PlainDate }
  | {
      readonly kind: 'due-move'
      readonly certification: string
      readonly standard: string
      /** Day of the NO-GO whose retest it is. */
      readonly on: PlainDate
      readonly due: PlainDate
    }
  | { readonly kind: 'merge' | 'unmerge'; readonly kept: string; readonly away: string }
  | {
      readonly kind: 'terms'
      readonly certification: string
      readonly standards: readonly string[]
      readonly arms: readonly string[]
      readonly terms: Terms
    }
  | {
      readonly kind: 'break'
      readonly standard: string
      readonly version: number
      readonly effectiveFrom: PlainDate
    }

/** A fact with its place in the record. */
export interface RecordedFact {
  /** Milliseconds since 1970; those of one transaction have the same. */
  readonly at: number
  /** Under whose id it was entered; null: it holds for everybody alike. */
  readonly owner: string | null
  readonly fact: Fact
}
