import { z } from 'zod'
import { Code, Instant, PlainDate, page, Text, Uuid } from './common.ts'

export const TestDayBody = z
  .strictObject({ on: PlainDate, unitId: Uuid, place: Text.default('') })
  .meta({ id: 'TestDayBody' })

export const TestDay = TestDayBody.safeExtend({ id: Uuid, sheets: z.int() }).meta({ id: 'TestDay' })
export const TestDayPage = page(TestDay)

/** A candidate is to be tested on a test day. */
export const BookingBody = z
  .strictObject({
    candidateId: Uuid,
    standard: Code,
    graderId: Uuid.nullable().default(null).describe('Who grades sees the candidate.'),
    startsAt: Instant.nullable().default(null),
  })
  .refine((booking) => booking.candidateId !== booking.graderId, {
    error: 'Nobody grades themselves; name another grader.',
    path: ['graderId'],
  })
  .meta({ id: 'BookingBody' })

/** Who grades the same attempt independently; null: nobody does any more. */
export const SecondGraderBody = z.strictObject({ graderId: Uuid.nullable() }).meta({ id: 'SecondGraderBody' })

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
  })
  .meta({ id: 'Booking' })

export const BookingPage = page(Booking)

export type BookingBody = z.infer<typeof BookingBody>
export type Booking = z.infer<typeof Booking>
export type TestDayBody = z.infer<typeof TestDayBody>
export type TestDay = z.infer<typeof TestDay>
