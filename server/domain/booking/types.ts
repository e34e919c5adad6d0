import type { Dossier, JudgingCatalogue, Qualification } from '../assessment/types.ts'
import type { PlainDate } from '../calendar/plain-date.ts'
import type { ValidityRule } from '../validity/rules.ts'

/** A stretch of time, in milliseconds since 1970; touching is no overlap. */
export interface Stretch {
  readonly from: number
  readonly to: number
}

/** Something that takes a person's time. */
export interface Engagement extends Stretch {
  readonly kind: 'test' | 'grading' | 'ceremony'
  /** The booking it comes from, where it is one. */
  readonly bookingId: string | null
}

/** Where and when a test is to be taken. */
export interface BookingPlace {
  readonly testDayId: string
  readonly day: PlainDate
  /** Null: any time that day. */
  readonly time: Stretch | null
  /** Null: not yet said. */
  readonly graderId: string | null
}

/** All that decides whether one candidate can be booked for one standard. */
export interface Prospect {
  readonly catalogue: JudgingCatalogue
  readonly candidateId: string
  readonly standard: string
  readonly dossier: Dossier
  /** What qualifies graders and sponsors, by person. */
  readonly people: ReadonlyMap<string, Qualification>
  /** By person: days on which they cannot be called on, both inclusive. */
  readonly absences: ReadonlyMap<string, readonly { readonly from: PlainDate; readonly through: PlainDate | null }[]>
  /** By person: what takes their time. */
  readonly engagements: ReadonlyMap<string, readonly Engagement[]>
  /** The candidate's bookings that are not cancelled, for any standard; `open`: still to be tested. */
  readonly bookings: readonly {
    readonly id: string
    readonly testDayId: string
    readonly day: PlainDate
    readonly standard: string
    readonly open: boolean
  }[]
  /** The booking that is to be moved, which stands in nobody's way. */
  readonly movedId: string | null
  /** Due days that the office has moved, by certification and day of the NO-GO, with a blank between. */
  readonly movedDue: ReadonlyMap<string, PlainDate>
}

/**
 * How much a conflict weighs. `blocks`: it cannot be, or nobody can waive it. `holds`: the sheet of such a test would be
 * held for the training office. `warns`: to be known before one books.
 */
export type ConflictWeight = 'blocks' | 'holds' | 'warns'

/** What stands in the way of a booking. */
export type BookingRule =
  | ValidityRule
  | 'slot-taken'
  | 'slot-over'
  | 'day-called-off'
  | 'booked-already'
  | 'not-in-strength'
  | 'two-at-once'
  | 'does-not-fit'
  | 'not-needed'
  | 'past-due'
  | 'booked-elsewhere'
  | 'candidate-absent'
  | 'candidate-on-ceremony'
  | 'sponsor-absent'
  | 'sponsor-busy'
  | 'grader-absent'
  | 'grader-on-ceremony'

export interface BookingConflict {
  readonly rule: BookingRule
  readonly weight: ConflictWeight
  /** A sentence that says how. */
  readonly detail: string
}
