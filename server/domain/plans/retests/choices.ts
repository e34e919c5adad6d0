import { bookingConflicts } from '../../booking/booking-conflicts.ts'
import { sponsorOn } from '../../booking/sponsor-on.ts'
import { overlap, timeConflicts } from '../../booking/time-conflicts.ts'
import type { BookingRule, Stretch } from '../../booking/types.ts'
import type { PlainDate } from '../../calendar/plain-date.ts'
import type { Choice, OpenSlot, WantedTest } from './types.ts'

/** A candidate is given so long before and after a test for what else they have to do. */
export const MINUTES_APART = 30
const MINUTE = 60_000

/** Nobody is tested more often on one day. */
export const MOST_A_DAY = 2

/** What a plan puts up with: only that a test comes late. */
const BORNE: readonly BookingRule[] = ['past-due']

export interface ChoiceFacts {
  readonly today: PlainDate
  /** When somebody coaches at a test whose booking stays, by sponsor. */
  readonly coaching: ReadonlyMap<string, readonly Stretch[]>
}

/**
 * A test held against every slot, by the very rules of a booking: what would be refused, would hold the sheet, or would be
 * warned of is no choice. Beyond these the candidate has half an hour before and after the test, no more than two tests that
 * day, and neither they, the sponsor nor the grader coach somebody else meanwhile.
 */
export function choicesOf(
  test: Pick<WantedTest, 'prospect'>,
  slots: readonly OpenSlot[],
  facts: ChoiceFacts,
): Choice[] {
  const conflictsAt = bookingConflicts(test.prospect)
  const known = new Map<string, readonly BookingRule[]>()
  /** Only the time tells slots of one grader and day apart, except today, on which sheets may come between. */
  const rulesAt = (slot: OpenSlot): readonly BookingRule[] => {
    if (slot.day <= facts.today) return conflictsAt(slot).map(({ rule }) => rule)
    const key = `${slot.testDayId} ${slot.graderId}`
    const timeless = known.get(key) ?? conflictsAt({ ...slot, time: null }).map(({ rule }) => rule)
    known.set(key, timeless)
    return [...timeless, ...timeConflicts(test.prospect, slot).map(({ rule }) => rule)]
  }
  return slots.map((slot) => ({
    slot,
    refused: [...new Set([...rulesAt(slot), ...beyond(test, slot, facts)])].filter((rule) => !BORNE.includes(rule)),
  }))
}

function beyond({ prospect }: Pick<WantedTest, 'prospect'>, slot: OpenSlot, { coaching }: ChoiceFacts): BookingRule[] {
  const apart = { from: slot.time.from - MINUTES_APART * MINUTE, to: slot.time.to + MINUTES_APART * MINUTE }
  const near = (prospect.engagements.get(prospect.candidateId) ?? []).filter(
    (one) => overlap(one, apart) && (one.bookingId === null || one.bookingId !== prospect.movedId),
  )
  const sameDay = prospect.bookings.filter(({ day, id }) => day === slot.day && id !== prospect.movedId)
  const sponsor = sponsorOn(prospect.dossier.sponsorships, slot.day)
  const coachesThen = (who: string | null) =>
    who !== null && (coaching.get(who) ?? []).some((one) => overlap(one, slot.time))
  return [
    ...near.map(({ kind }): BookingRule => (kind === 'ceremony' ? 'candidate-on-ceremony' : 'two-at-once')),
    ...(sameDay.length >= MOST_A_DAY ? ['booked-already' as const] : []),
    ...(coachesThen(prospect.candidateId) ? ['two-at-once' as const] : []),
    ...(coachesThen(sponsor) ? ['sponsor-busy' as const] : []),
    ...(coachesThen(slot.graderId) ? ['grader-absent' as const] : []),
  ]
}
