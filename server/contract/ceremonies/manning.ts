import { z } from 'zod'
import { Code, Day, Instant, Page, page, storableText, Uuid } from '../common.ts'
import { StatusWord } from '../standards/certifications.ts'

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

export const PostParams = z.strictObject({ id: Uuid, postId: Uuid })

export const PostCandidateQuery = z.strictObject({
  ...Page,
  q: storableText(100)
    .optional()
    .describe('Parts of roster number, name or grade: also who may not stand there. Left out: who is certified.'),
})

export type WhyNot = z.infer<typeof WhyNot>
export type PostCandidate = z.infer<typeof PostCandidate>
