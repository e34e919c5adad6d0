import { z } from 'zod'
import { Code, Created, Day, Instant, Reason, Uuid, Words } from '../common.ts'
import { Conditions } from '../sheets/sheets.ts'

/** What stands in the way of a booking. */
export const BookingConflict = z
  .object({
    rule: z.string(),
    weight: z
      .enum(['blocks', 'holds', 'warns'])
      .describe('It cannot be booked; the sheet would be held for the office; only to be known.'),
    detail: z.string(),
  })
  .meta({ id: 'BookingConflict' })

/** A booking that was made, and what was booked over. */
export const MadeBooking = Created.extend({ conflicts: z.array(BookingConflict) }).meta({ id: 'MadeBooking' })

const MOST_AT_ONCE = 100

const Wanted = z.strictObject({ candidateId: Uuid, standard: Code }).meta({ id: 'WantedBooking' })

/** Candidates who are to get a slot on one of these test days. */
export const BookingPlanBody = z
  .strictObject({
    testDayIds: z.array(Uuid).min(1).max(20),
    wanted: z.array(Wanted).min(1).max(MOST_AT_ONCE),
  })
  .meta({ id: 'BookingPlanBody' })

/** Where somebody would go; without a slot, why there is none. */
export const PlannedBooking = z
  .object({
    bookingId: Uuid.nullable().describe('The booking that would be moved; null: a new one.'),
    candidateId: Uuid,
    candidateName: z.string(),
    standard: Code,
    slotId: Uuid.nullable(),
    testDayId: Uuid.nullable(),
    on: Day.nullable(),
    place: z.string().nullable(),
    graderName: z.string().nullable(),
    startsAt: Instant.nullable(),
    endsAt: Instant.nullable(),
    conflicts: z.array(BookingConflict),
  })
  .meta({ id: 'PlannedBooking' })

export const BookingPlan = z
  .object({
    items: z.array(PlannedBooking),
    freeSlots: z.int().describe('Free slots that have not begun, before any of this is booked.'),
  })
  .meta({ id: 'BookingPlan' })

/** Many bookings at once, each in a slot: all of them or, where asked so, those that can be. */
export const BulkBookingBody = z
  .strictObject({
    bookings: z
      .array(Wanted.safeExtend({ slotId: Uuid }))
      .min(1)
      .max(MOST_AT_ONCE),
    whatFits: z
      .boolean()
      .default(false)
      .describe('True: book those that nothing refuses, and answer why not the others.'),
  })
  .refine(({ bookings }) => new Set(bookings.map(({ slotId }) => slotId)).size === bookings.length, {
    error: 'A slot is given to two; each takes one test.',
    path: ['bookings'],
  })
  .meta({ id: 'BulkBookingBody' })

export const BulkBooking = z
  .object({
    booked: z.array(MadeBooking.extend({ candidateId: Uuid, standard: Code, slotId: Uuid })),
    refused: z.array(
      z.object({ candidateId: Uuid, standard: Code, slotId: Uuid, conflicts: z.array(BookingConflict) }),
    ),
  })
  .meta({ id: 'BulkBooking' })

/** To another slot, or out of any (`slotId` null) on this or another test day. */
export const MoveBody = z
  .strictObject({ testDayId: Uuid, slotId: Uuid.nullable(), reason: Reason.nullable().default(null) })
  .meta({ id: 'MoveBody' })

/** How a booking went. `booked` takes such a mark back. A reason is needed for all but being there. */
export const BookingMarkBody = z
  .strictObject({
    state: z.enum(['booked', 'checked in', 'tested', 'no-show', 'excused', 'turned away']),
    reason: Reason.nullable().default(null),
    found: Conditions.nullable().default(null).describe('What was found when they came; null: nobody looked.'),
  })
  .refine(({ state, reason }) => state === 'checked in' || reason !== null, {
    error: 'Say why; only being there needs no reason.',
    path: ['reason'],
  })
  .refine(({ state, found }) => found === null || state === 'checked in' || state === 'turned away', {
    error: 'Only of somebody who came can be said what was found.',
    path: ['found'],
  })
  .meta({ id: 'BookingMarkBody' })

/** Somebody who comes without a booking. Number and name go together: who guesses a number is told no name. */
export const WalkInBody = z
  .strictObject({ rosterNumber: Words.max(40), familyName: Words.max(100), standard: Code, found: Conditions })
  .meta({ id: 'WalkInBody' })

export const WalkIn = z
  .object({ id: Uuid.describe('The booking: a new one, or one that was there already.'), candidateId: Uuid })
  .meta({ id: 'WalkIn' })

export const ReasonBody = z.strictObject({ reason: Reason }).meta({ id: 'ReasonBody' })

/** The whole day is called off; each booking goes to the slot named for it, the others go back to the backlog. */
export const CallOffBody = z
  .strictObject({
    reason: Reason,
    moves: z
      .array(z.strictObject({ bookingId: Uuid, slotId: Uuid }))
      .max(500)
      .default([]),
  })
  .refine(({ moves }) => new Set(moves.map(({ slotId }) => slotId)).size === moves.length, {
    error: 'A slot is given to two; each takes one test.',
    path: ['moves'],
  })
  .meta({ id: 'CallOffBody' })

export const CallOff = z.object({ moved: z.int(), backToBacklog: z.int() }).meta({ id: 'CallOff' })

export const WalkInParams = z.strictObject({ id: Uuid, bookingId: Uuid })

export type BookingPlanBody = z.infer<typeof BookingPlanBody>
export type BookingPlan = z.infer<typeof BookingPlan>
export type PlannedBooking = z.infer<typeof PlannedBooking>
export type BulkBookingBody = z.infer<typeof BulkBookingBody>
export type BulkBooking = z.infer<typeof BulkBooking>
export type MadeBooking = z.infer<typeof MadeBooking>
export type MoveBody = z.infer<typeof MoveBody>
export type BookingMarkBody = z.infer<typeof BookingMarkBody>
export type WalkInBody = z.infer<typeof WalkInBody>
export type WalkIn = z.infer<typeof WalkIn>
export type BookingConflict = z.infer<typeof BookingConflict>
export type CallOffBody = z.infer<typeof CallOffBody>
export type CallOff = z.infer<typeof CallOff>
