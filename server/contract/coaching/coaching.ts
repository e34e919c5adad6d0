import { z } from 'zod'
import { Code, Day, PlainDate, page, Uuid } from '../common.ts'
import { Rate } from '../findings/rate.ts'
import { CertificationStatus, Retest } from '../standards/certifications.ts'
import { Booking } from '../test-days/test-days.ts'

/** Something about a candidate’s coming tests to see to, and the day it turns on. */
export const CoachingWarning = z
  .object({
    kind: z.enum([
      'retest-past-due',
      'booked-after-due',
      'review-needed',
      'sponsor-not-certified',
      'sponsorship-ends',
      'go-ages-out',
      'certification-lapses',
      'nothing-booked',
    ]),
    on: Day.describe('Due or earliest day, or the last day of what ends.'),
    certification: Code,
    standard: Code,
    test: Day.nullable().describe('The test it is about: booked, else the first day possible; null: none is known.'),
    booked: z.boolean(),
    sponsorId: Uuid.nullable().describe('The sponsor it is about; null: it is about the candidate.'),
  })
  .meta({ id: 'CoachingWarning' })

export const DrillReason = z.enum(['never-go', 'no-go-last', 'not-tested', 'go-since', 'always-go'])

/** A measure in the order in which to drill, and why it is there; from tests that count, never from practice. */
export const Drill = z
  .object({
    measure: Code,
    major: z.boolean(),
    reason: DrillReason,
    tested: z.int(),
    noGo: z.int(),
    lastNoGo: Day.nullable(),
    inARow: z.int().describe('NO-GOs since the last GO.'),
    improved: z.object({ noGoOn: Day, goOn: Day }).nullable().describe('NO-GO once, and GO in every test since.'),
    otherVersions: z.array(z.int()).describe('Versions it was tested under that define it otherwise than the newest.'),
    fault: z
      .object({ code: Code, count: z.int() })
      .nullable()
      .describe('Noted most on the candidate’s trials of it, and on how many.'),
    unit: Rate.describe('NO-GO of tested among first-timers of the whole unit.'),
  })
  .meta({ id: 'Drill' })

export const DrillPlan = z
  .object({
    standard: Code,
    version: z.int(),
    tests: z.int().describe('With marks, that count.'),
    items: z.array(Drill),
  })
  .meta({ id: 'DrillPlan' })

/** A test still to pass, or booked. */
export const TestAhead = z
  .object({ certification: Code, standard: Code, retest: Retest.nullable(), booking: Booking.nullable() })
  .meta({ id: 'TestAhead' })

const Coached = {
  candidateId: Uuid,
  rosterNumber: z.string(),
  name: z.string(),
  grade: z.string(),
  unitId: Uuid.nullable(),
  statuses: z.array(CertificationStatus.safeExtend({ required: z.boolean() })),
  ahead: z.array(TestAhead).describe('The soonest first.'),
  warnings: z.array(CoachingWarning),
  lastPractice: Day.nullable().describe('The latest day of practice, by the sheet or of chosen measures.'),
  drill: DrillPlan.nullable().describe(
    'Of the next test, or of the standard asked about; null: nothing is to be tested.',
  ),
}

/** What is ahead of one candidate, and what to drill for it. */
export const CandidateCoaching = z.object({ asOf: PlainDate, ...Coached }).meta({ id: 'CandidateCoaching' })

/** A sponsor’s present candidates. */
export const Coaching = page(z.object({ ...Coached, since: PlainDate, until: PlainDate.nullable() }))
  .safeExtend({
    asOf: PlainDate,
    candidates: z.int().describe('How many there are in all.'),
    mostCandidates: z.int().describe('More at a time are too many by the unit’s own setting.'),
    tooManySince: PlainDate.nullable().describe('The day since which they are too many; null: they are not.'),
    own: z.array(CertificationStatus).describe('How the sponsor stands.'),
  })
  .meta({ id: 'Coaching' })

export const CandidateCoachingQuery = z.strictObject({
  standard: Code.optional().describe('What to drill for; without it, for the next test.'),
})

export type CoachingWarning = z.infer<typeof CoachingWarning>
export type Drill = z.infer<typeof Drill>
export type DrillPlan = z.infer<typeof DrillPlan>
export type CandidateCoaching = z.infer<typeof CandidateCoaching>
export type Coaching = z.infer<typeof Coaching>
