import { z } from 'zod'
import { Code, Instant, PlainDate, Uuid, Words } from '../common.ts'
import { Conditions } from '../sheets/sheets.ts'
import { Standard } from '../standards/standards.ts'

const Sponsor = z.object({ id: Uuid, name: z.string() }).nullable().describe('Sponsor of record that day.')

const Candidate = z.object({
  id: Uuid,
  rosterNumber: z.string(),
  grade: z.string(),
  familyName: z.string(),
  givenName: z.string(),
  arms: z.array(Code).describe('Carried that day.'),
  sponsor: Sponsor,
})

const ListedBooking = z.object({
  id: Uuid,
  testDayId: Uuid,
  on: PlainDate,
  place: z.string(),
  startsAt: Instant.nullable(),
  zone: z.string().describe('The time zone of the test day.'),
  standard: Code,
  state: z.string(),
  checkIn: Conditions.nullable().describe('What was found at check-in.'),
  sponsorCertified: z.boolean().describe('The sponsor holds a certification that asks for this standard that day.'),
  asSecond: z.boolean().describe('To be graded as the second, independent grader.'),
  firstSheetId: Uuid.nullable().describe('For a second grader: the sheet of the first, once it is known.'),
  candidate: Candidate,
})

const RetestTerms = z
  .object({
    standard: Code,
    arms: z.array(Code).describe('With which a sheet must be taken; empty: any.'),
    terms: z
      .array(z.object({ effectiveFrom: PlainDate, waitDays: z.int(), dueDays: z.int() }))
      .describe('In order of the day they hold from.'),
  })
  .describe('When a NO-GO of a standard is retested, by one certification that asks for it.')

/** What a device keeps so that its account can grade without a network. */
export const DayList = z
  .object({
    today: PlainDate,
    at: Instant.describe('The clock of the server.'),
    bookings: z.array(ListedBooking).describe('With this grader, today and in the seven days after.'),
    testDays: z
      .array(z.object({ id: Uuid, on: PlainDate, place: z.string() }))
      .describe('On which this grader grades, today and in the seven days after.'),
    coached: z.array(Candidate).describe('Present candidates of this sponsor, for practice.'),
    standards: z.array(Standard).describe('The versions in force on one of these days.'),
    retests: z.array(RetestTerms),
  })
  .meta({ id: 'DayList' })

/** Somebody who stands before a grader without a booking. Number and name go together: who guesses a number is told no name. */
export const IdentifyBody = z
  .strictObject({ rosterNumber: Words.max(40), familyName: Words.max(100), on: PlainDate })
  .meta({ id: 'IdentifyBody' })

export const Identified = z.object({ id: Uuid, sponsor: Sponsor }).meta({ id: 'IdentifiedSoldier' })

export type DayList = z.infer<typeof DayList>
export type RetestTerms = z.infer<typeof RetestTerms>
export type ListedBooking = z.infer<typeof ListedBooking>
export type ListedCandidate = z.infer<typeof Candidate>
export type IdentifyBody = z.infer<typeof IdentifyBody>
export type Identified = z.infer<typeof Identified>
