import { z } from 'zod'
import { Code, Instant, Uuid } from '../common.ts'
import { Conditions, SheetState } from '../sheets/sheets.ts'
import { BookingState } from './test-days.ts'

const Counts = {
  calls: z.int().min(0).max(10_000).describe('Calls of the standard.'),
  callsDone: z.int().min(0).max(10_000),
  go: z.int().min(0).max(1000),
  noGo: z.int().min(0).max(1000),
}

/** How a test stands that a device is running; the address has the id its sheet will have. */
export const RunningTestBody = z
  .strictObject({
    testDayId: Uuid,
    candidateId: Uuid,
    standard: Code,
    graderId: Uuid,
    secondOf: Uuid.nullable().default(null),
    startedAt: Instant,
    state: z.enum(['running', 'ceased']),
    ...Counts,
  })
  .refine(({ calls, callsDone }) => callsDone <= calls, {
    error: 'More calls are done than the standard has.',
    path: ['callsDone'],
  })
  .meta({ id: 'RunningTestBody' })

const People = {
  candidateId: Uuid,
  candidate: z.string(),
  standard: Code,
  graderId: Uuid,
  grader: z.string(),
  secondOf: Uuid.nullable(),
}

/** A test that runs now. `go` and `noGo` are null for graders, who grade by what they see. */
const RunningTest = z
  .object({
    sheetId: Uuid,
    ...People,
    startedAt: Instant,
    state: z.enum(['running', 'ceased']),
    calls: z.int(),
    callsDone: z.int(),
    go: z.int().nullable(),
    noGo: z.int().nullable(),
    heardAt: Instant.describe('When the device last said so.'),
  })
  .meta({ id: 'RunningTest' })

/** A test that was closed on a test day. */
const ClosedTest = z
  .object({
    sheetId: Uuid,
    ...People,
    finishedAt: Instant,
    outcome: z.enum(['GO', 'NO-GO', 'VOID']),
    state: SheetState,
  })
  .meta({ id: 'ClosedTest' })

/** Who is booked on a test day, and how that stands. */
const LineBooking = z
  .object({
    id: Uuid,
    candidateId: Uuid,
    candidate: z.string(),
    rosterNumber: z.string(),
    arms: z.array(Code).describe('Carried that day.'),
    standard: Code,
    startsAt: Instant.nullable(),
    graderId: Uuid.nullable(),
    grader: z.string().nullable(),
    secondGraderId: Uuid.nullable(),
    secondGrader: z.string().nullable(),
    sponsor: z.string().nullable().describe('Of record that day.'),
    sponsorCertified: z.boolean(),
    state: BookingState,
    stateReason: z.string().nullable(),
    checkIn: Conditions.nullable(),
  })
  .meta({ id: 'LineBooking' })

/** The line of a test day: who is booked, by time; what runs, in order of its start; what was closed, latest first. */
export const TestDayLine = z
  .object({ bookings: z.array(LineBooking), running: z.array(RunningTest), closed: z.array(ClosedTest) })
  .meta({ id: 'TestDayLine' })

export type RunningTestBody = z.infer<typeof RunningTestBody>
export type LineBooking = z.infer<typeof LineBooking>
export type RunningTest = z.infer<typeof RunningTest>
export type ClosedTest = z.infer<typeof ClosedTest>
export type TestDayLine = z.infer<typeof TestDayLine>
