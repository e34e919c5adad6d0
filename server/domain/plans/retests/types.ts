import type { BookingRule, Prospect, Stretch } from '../../booking/types.ts'
import type { PlainDate } from '../../calendar/plain-date.ts'

/** Why a test is wanted. `booked`: it has a slot, and may move to another. */
export type WantedKind = 'retest' | 'renewal' | 'first test' | 'booked'

/** A test that is to get a slot. */
export interface WantedTest {
  readonly candidateId: string
  readonly standard: string
  readonly kind: WantedKind
  /** Last day by which it should be taken; null: none is set. */
  readonly due: PlainDate | null
  readonly earliest: PlainDate | null
  readonly needsReview: boolean
  /** The booking it has, where that may move, and the slot it is in. */
  readonly booked: { readonly bookingId: string; readonly slotId: string } | null
  /** Where passing fills a post that is short: before which day, and how likely. */
  readonly fills: { readonly before: PlainDate; readonly chance: number; readonly basis: 'model' | 'baseline' } | null
  readonly prospect: Prospect
}

/** A slot that a plan may give. */
export interface OpenSlot {
  readonly slotId: string
  readonly testDayId: string
  readonly day: PlainDate
  readonly graderId: string | null
  readonly time: Stretch
}

/** A slot held against a test; nothing refused: the test may go there. */
export interface Choice {
  readonly slot: OpenSlot
  readonly refused: readonly BookingRule[]
}
