import { z } from 'zod'
import { Code, Day, Instant, Reason, Uuid } from '../common.ts'

export const AskBody = z
  .strictObject({ postId: Uuid, unitId: Uuid.describe('A unit whose soldiers you may not name yourself.') })
  .meta({ id: 'AskBody' })

export const AnswerBody = z
  .discriminatedUnion('answer', [
    z.strictObject({ answer: z.literal('yes'), soldierId: Uuid.describe('Of the unit asked; named to the post.') }),
    z.strictObject({ answer: z.literal('no'), word: Reason.describe('Why not, for who asked.') }),
  ])
  .meta({ id: 'AnswerBody' })

/** Another unit is asked for a soldier for a post of a ceremony. Who is named with a yes stands in the ceremony, not here. */
export const Ask = z
  .object({
    id: Uuid,
    ceremonyId: Uuid,
    title: z.string(),
    place: z.string(),
    unitName: z.string().describe('The unit that mans the ceremony.'),
    day: Day,
    reportsAt: Instant,
    startsAt: Instant,
    endsAt: Instant,
    postId: Uuid,
    postTitle: z.string(),
    certification: Code,
    arm: Code.nullable(),
    grades: z.array(Code).nullable(),
    minHeightCm: z.int().nullable(),
    maxHeightCm: z.int().nullable(),
    askedUnitId: Uuid,
    askedUnitName: z.string(),
    askedAt: Instant,
    answer: z.enum(['yes', 'no', 'taken back']).nullable().describe('Null: not answered yet.'),
    answeredAt: Instant.nullable(),
    word: z.string().describe('Said with a no.'),
  })
  .meta({ id: 'Ask' })

export const AskList = z.object({ items: z.array(Ask) }).meta({ id: 'AskList' })

export const CeremonyAsks = z
  .object({
    items: z.array(Ask),
    units: z.array(z.object({ id: Uuid, name: z.string() })).describe('Units that can be asked.'),
  })
  .meta({ id: 'CeremonyAsks' })

export const AskCandidates = z
  .object({
    items: z.array(
      z.object({ soldierId: Uuid, rosterNumber: z.string(), name: z.string(), grade: z.string(), stood: z.int() }),
    ),
  })
  .meta({ id: 'AskCandidates' })

export type AskBody = z.infer<typeof AskBody>
export type AnswerBody = z.infer<typeof AnswerBody>
export type Ask = z.infer<typeof Ask>
export type CeremonyAsks = z.infer<typeof CeremonyAsks>
export type AskCandidates = z.infer<typeof AskCandidates>
