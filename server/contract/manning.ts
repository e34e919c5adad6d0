import { z } from 'zod'
import { StatusWord } from './certifications.ts'
import { Code, Day, Instant, page, Uuid } from './common.ts'

/** One reason why a soldier may not stand at a post. */
export const WhyNot = z
  .discriminatedUnion('reason', [
    z.object({ reason: z.literal('not in strength') }),
    z.object({ reason: z.literal('suspended') }),
    z.object({
      reason: z.literal('not certified'),
      status: StatusWord,
      missing: z.array(Code).describe('Required standards not in that day.'),
      validThrough: Day.nullable().describe('Last day of the latest award.'),
    }),
    z.object({
      reason: z.literal('test ends too late'),
      finishedAt: Instant.describe('End of the test of that day that certifies; it comes after reporting.'),
    }),
    z.object({ reason: z.literal('wrong arm') }),
    z.object({ reason: z.literal('wrong grade') }),
    z.object({ reason: z.literal('outside the height band'), heightCm: z.int() }),
    z.object({ reason: z.literal('height not known') }),
    z.object({
      reason: z.literal('absent'),
      kind: z.string().describe('leave, course, duty elsewhere or not available.'),
      from: Day,
      through: Day.nullable(),
      at: z.enum(['ceremony', 'rehearsal']),
    }),
    z.object({
      reason: z.literal('other duty'),
      kind: z.enum(['ceremony', 'rehearsal', 'alternate', 'test', 'grading']),
      title: z.string().nullable().describe('Null: of a unit you may not see.'),
      startsAt: Instant,
      endsAt: Instant,
    }),
  ])
  .meta({ id: 'WhyNot' })

/** Somebody who could be named to a post, with all that speaks against it. */
export const PostCandidate = z
  .object({
    soldierId: Uuid,
    rosterNumber: z.string(),
    name: z.string(),
    grade: z.string(),
    unitId: Uuid,
    heightCm: z.int().nullable().describe('Given only where the post has a height band.'),
    duties: z.int().describe('Ceremonies stood at in the 90 days before this one, named ahead included.'),
    namedAs: z.string().nullable().describe('Where the soldier is named in this ceremony already.'),
    whyNot: z.array(WhyNot),
  })
  .meta({ id: 'PostCandidate' })

export const PostCandidatePage = page(PostCandidate)

export const OUTLOOK_GROUPS = ['named', 'can stand', 'lapses before', 'could make it', 'cannot'] as const

/** A test on the way to a certification: booked, or possible on a test day with a free slot. */
const TestAhead = z.object({ standard: Code, on: Day, booked: z.boolean(), testDayId: Uuid })

/** How one soldier stands with one certification that posts of a ceremony ask for. */
export const OutlookItem = z
  .object({
    soldierId: Uuid,
    rosterNumber: z.string(),
    name: z.string(),
    grade: z.string(),
    unitId: Uuid,
    certification: Code,
    group: z.enum(OUTLOOK_GROUPS),
    namedAs: z.string().nullable(),
    validThrough: Day.nullable(),
    whyNot: z.array(WhyNot).describe('What speaks against the post that fits best; empty: may stand there.'),
    way: z
      .array(TestAhead)
      .nullable()
      .describe('Tests that would certify in time, if passed; null: certified already, or there is no way.'),
  })
  .meta({ id: 'OutlookItem' })

export const Outlook = page(OutlookItem)
  .safeExtend({
    day: Day,
    counts: z.array(z.object({ certification: Code, group: z.enum(OUTLOOK_GROUPS), count: z.int() })),
  })
  .meta({ id: 'Outlook' })

export type WhyNot = z.infer<typeof WhyNot>
export type PostCandidate = z.infer<typeof PostCandidate>
export type OutlookItem = z.infer<typeof OutlookItem>
export type Outlook = z.infer<typeof Outlook>
