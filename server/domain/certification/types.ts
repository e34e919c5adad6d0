import type { PlainDate } from '../calendar/plain-date.ts'

/** A certification: which standards it requires, in order, and with which arms a sheet must have been taken (empty: any). */
export interface Certification {
  readonly code: string
  readonly standards: readonly string[]
  readonly arms: readonly string[]
  /** Never empty. Terms hold from their day to the next; the first also hold for all days before. */
  readonly terms: readonly Terms[]
}

export interface Terms {
  readonly effectiveFrom: PlainDate
  readonly sequence: 'any' | 'in-order'
  readonly windowDays: number
  readonly validityMonths: number
  readonly waitDays: number
  readonly dueDays: number
  readonly reviewAfter: number
  /** Left out: none. */
  readonly approval?: Approval
  /** By so many days in all one award may be extended; left out: none. */
  readonly extensionDays?: number
}

/**
 * Whether an award made by tests waits for a commander, and from when it is in force then: the day it is signed, or once
 * it is signed the day it was made.
 */
export type Approval = 'none' | 'required' | 'required-from-award'

/** From `effectiveFrom` on, kept GOs taken under a version before `version` no longer count. */
export interface Break {
  readonly standard: string
  readonly version: number
  readonly effectiveFrom: PlainDate
}

/** A counted, non-void, first-grader test sheet. */
export interface Attempt {
  readonly id: string
  readonly standard: string
  readonly version: number
  readonly arm: string | null
  /** Milliseconds since 1970. */
  readonly finishedAt: number
  readonly day: PlainDate
  readonly outcome: 'GO' | 'NO-GO'
}

/** An award carried over from before the unit joined; `entry` orders those of one day. */
export interface CarriedAward {
  /** Names it where it is extended. */
  readonly id?: string
  readonly awardedOn: PlainDate
  readonly validThrough: PlainDate
  readonly entry: number
}

export interface Suspension {
  readonly from: PlainDate
  readonly lift: PlainDate | null
}

/** What a commander decided about the award that a sheet made. */
export interface AwardDecision {
  readonly sheetId: string
  readonly decision: 'approve' | 'refuse'
  readonly on: PlainDate
}

/** Days added to the last day of an award: of a sheet, or a carried-over one, by its id. */
export interface Extension {
  readonly award: string
  readonly days: number
}

export interface Review {
  readonly standard: string
  readonly on: PlainDate
}

/** Everything of one soldier that one certification's status depends on. */
export interface History {
  readonly attempts: readonly Attempt[]
  readonly awards: readonly CarriedAward[]
  readonly withdrawals: readonly PlainDate[]
  readonly suspensions: readonly Suspension[]
  readonly reviews: readonly Review[]
  /** At most one about a sheet; left out: none. */
  readonly decisions?: readonly AwardDecision[]
  /** Left out: none. */
  readonly extensions?: readonly Extension[]
}

/** What of a history makes awards. */
export type AwardHistory = Pick<History, 'attempts' | 'awards' | 'withdrawals' | 'decisions' | 'extensions'>

export type StatusWord =
  | 'suspended'
  | 'certified'
  | 'awaiting approval'
  | 'retest due'
  | 'part way'
  | 'lapsed'
  | 'no test yet'

export interface CertificationStatus {
  readonly status: StatusWord
  /** Of the latest award that has come into force, as is the next one. */
  readonly awardedOn: PlainDate | null
  readonly validThrough: PlainDate | null
  /** A suspension is in force, whatever the status. */
  readonly suspended: boolean
  readonly toward: readonly { readonly standard: string; readonly on: PlainDate; readonly countsUntil: PlainDate }[]
  readonly retestOpen: readonly string[]
}

export interface OpenRetest {
  readonly standard: string
  /** The number the next attempt will have. */
  readonly attempt: number
  readonly on: PlainDate
  readonly earliest: PlainDate
  readonly due: PlainDate
  readonly pastDue: boolean
  readonly noGosInARow: number
  readonly needsReview: boolean
}
