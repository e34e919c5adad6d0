import { z } from 'zod'
import { Code, Instant, Page, PlainDate, page, Text, Uuid } from '../common.ts'
import { Conditions } from '../sheets/sheets.ts'

export const TestDayBody = z
  .strictObject({ on: PlainDate, unitId: Uuid, place: Text.default('') })
  .meta({ id: 'TestDayBody' })

/** What may be changed of a test day while nothing took place on it; what is left out stays. */
export const TestDayChange = z
  .strictObject({ on: PlainDate.optional(), place: Text.optional() })
  .refine(({ on, place }) => on !== undefined || place !== undefined, { error: 'Give the day or the place.' })
  .meta({ id: 'TestDayChange' })

const CalledOff = z.object({ at: Instant, reason: z.string() }).meta({ id: 'CalledOff' })

export const TestDay = TestDayBody.safeExtend({
  id: Uuid,
  sheets: z.int(),
  slots: z.int(),
  freeSlots: z
    .int()
    .describe('Slots that have not begun and hold no booking that is not cancelled; none on a day called off.'),
  bookings: z.int().describe('Bookings in scope that are not cancelled.'),
  calledOff: CalledOff.nullable(),
}).meta({ id: 'TestDay' })
export const TestDayPage = page(TestDay)

/** Room for one test. */
export const Slot = z
  .object({
    id: Uuid,
    testDayId: Uuid,
    on: PlainDate,
    place: z.string(),
    unitId: Uuid,
    graderId: Uuid.nullable(),
    graderName: z.string().nullable(),
    startsAt: Instant,
    endsAt: Instant,
    taken: z.boolean(),
    bookingId: Uuid.nullable().describe('Of a booking in scope.'),
  })
  .meta({ id: 'Slot' })
export const SlotPage = page(Slot)

/** One test day with its slots in order of time. */
export const TestDayDetail = TestDay.safeExtend({
  zone: z.string().describe('IANA zone in which the clock times of this day are meant.'),
  slotList: z.array(Slot),
  sheetsWithoutBooking: z.int().describe('Sheets in scope that no booking led to.'),
}).meta({ id: 'TestDayDetail' })

const Clock = z
  .string()
  .regex(/^([01]\d|2[0-3]):[0-5]\d$/, { error: 'Give the time as HH:MM, from 00:00 to 23:59.' })
  .meta({ id: 'Clock', example: '08:30' })

const MINUTES_OF_A_DAY = 24 * 60

/** Many slots at once: for each grader one after the other from a time to a time by the clock on the wall. */
export const SlotsBody = z
  .strictObject({
    from: Clock,
    to: Clock,
    minutes: z.int().min(5).max(MINUTES_OF_A_DAY).describe('How long each is.'),
    pause: z.int().min(0).max(MINUTES_OF_A_DAY).default(0).describe('Minutes between one and the next.'),
    graderIds: z.array(Uuid).max(50).default([]).describe('Empty: one row of slots whose grader is not yet said.'),
  })
  .refine(({ from, to }) => from < to, { error: 'The slots must begin before they end.', path: ['to'] })
  .refine(({ graderIds }) => new Set(graderIds).size === graderIds.length, {
    error: 'A grader is named twice.',
    path: ['graderIds'],
  })
  .meta({ id: 'SlotsBody' })

export const MadeSlots = z.object({ items: z.array(Slot) }).meta({ id: 'MadeSlots' })

/** Who grades in a slot, and so the booking in it; null: not yet said. */
export const SlotChange = z.strictObject({ graderId: Uuid.nullable() }).meta({ id: 'SlotChange' })

/** A candidate is to be tested on a test day. In a slot, time and grader are the slot's. */
export const BookingBody = z
  .strictObject({
    candidateId: Uuid,
    standard: Code,
    slotId: Uuid.nullable().default(null).describe('Null: waiting in no slot.'),
    graderId: Uuid.nullable().default(null).describe('Who grades sees the candidate.'),
    startsAt: Instant.nullable().default(null),
  })
  .refine((booking) => booking.candidateId !== booking.graderId, {
    error: 'Nobody grades themselves; name another grader.',
    path: ['graderId'],
  })
  .refine(({ slotId, graderId, startsAt }) => slotId === null || (graderId === null && startsAt === null), {
    error: 'Grader and time are those of the slot; leave them out, or the slot.',
    path: ['slotId'],
  })
  .meta({ id: 'BookingBody' })

/** Who grades the same attempt independently; null: nobody does any more. */
export const SecondGraderBody = z.strictObject({ graderId: Uuid.nullable() }).meta({ id: 'SecondGraderBody' })

export const BookingState = z
  .enum(['booked', 'checked in', 'tested', 'no-show', 'excused', 'turned away', 'cancelled'])
  .meta({ id: 'BookingState' })

export const Booking = z
  .object({
    id: Uuid,
    testDayId: Uuid,
    on: PlainDate,
    place: z.string(),
    candidateId: Uuid,
    candidateName: z.string(),
    standard: Code,
    graderId: Uuid.nullable(),
    graderName: z.string().nullable(),
    startsAt: Instant.nullable(),
    endsAt: Instant.nullable(),
    slotId: Uuid.nullable(),
    secondGraderId: Uuid.nullable(),
    secondGraderName: z.string().nullable(),
    state: BookingState,
    stateReason: z.string().nullable(),
    checkIn: Conditions.nullable().describe('What was found at check-in.'),
    sheetId: Uuid.nullable().describe('The sheet of the test it led to.'),
    movedTo: z
      .object({
        bookingId: Uuid,
        testDayId: Uuid,
        on: PlainDate,
        place: z.string(),
        startsAt: Instant.nullable(),
        state: BookingState,
      })
      .nullable()
      .describe('Of a cancelled one: the booking made instead when its day was called off, else the next one since.'),
  })
  .meta({ id: 'Booking' })

export const BookingPage = page(Booking)

export const BookingQuery = z.strictObject({
  ...Page,
  testDayId: Uuid.optional(),
  candidateId: Uuid.optional(),
  from: PlainDate.optional().describe('First day.'),
  state: z
    .enum([...BookingState.options, 'all'])
    .optional()
    .describe('Left out: all but cancelled ones.'),
})

export const TestDayQuery = z.strictObject({
  ...Page,
  from: PlainDate.optional().describe('First day.'),
  through: PlainDate.optional().describe('Last day.'),
  unitId: Uuid.optional(),
})

export const SlotQuery = z.strictObject({
  ...Page,
  from: PlainDate.optional().describe('First day; left out: today.'),
  through: PlainDate.optional().describe('Last day.'),
  unitId: Uuid.optional(),
  free: z
    .enum(['true', 'false'])
    .default('false')
    .describe('True: only those that have not begun and that nobody is booked in.'),
})

export type BookingBody = z.infer<typeof BookingBody>
export type Booking = z.infer<typeof Booking>
export type BookingState = z.infer<typeof BookingState>
export type Slot = z.infer<typeof Slot>
export type SlotsBody = z.infer<typeof SlotsBody>
export type TestDayBody = z.infer<typeof TestDayBody>
export type TestDayChange = z.infer<typeof TestDayChange>
export type TestDay = z.infer<typeof TestDay>
export type TestDayDetail = z.infer<typeof TestDayDetail>
