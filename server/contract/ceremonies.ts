import { z } from 'zod'
import { StatusWord } from './certifications.ts'
import { Code, Day, Instant, page, Text, Uuid, Words } from './common.ts'

const PostBody = z
  .strictObject({
    title: Words,
    row: z.int().min(1).max(50).describe('Rank in which it forms up, 1 in front.'),
    place: z.int().min(1).max(100).describe('Place in the rank, from its right.'),
    certification: Code,
    arm: Code.nullable().default(null),
    grades: z.array(Code).max(100).nullable().default(null),
    soldierId: Uuid.nullable().default(null),
  })
  .meta({ id: 'PostBody' })

export const CeremonyBody = z
  .strictObject({
    title: Words,
    place: Text.default(''),
    unitId: Uuid.describe('The unit that mans it, with all below it.'),
    startsAt: Instant,
    endsAt: Instant,
    posts: z.array(PostBody).min(1).max(400),
  })
  .refine((ceremony) => Date.parse(ceremony.startsAt) < Date.parse(ceremony.endsAt), {
    error: 'The ceremony ends before it starts: mend startsAt or endsAt.',
    path: ['endsAt'],
  })
  .meta({ id: 'CeremonyBody' })

const CeremonyHead = {
  id: Uuid,
  title: z.string(),
  place: z.string(),
  unitId: Uuid,
  startsAt: Instant,
  endsAt: Instant,
  day: Day,
  posts: z.int(),
  filled: z.int().describe('Posts named to a soldier who can stand that day.'),
}

export const CeremonySummary = z.object(CeremonyHead).meta({ id: 'CeremonySummary' })
export const CeremonyPage = page(CeremonySummary)

const WHY_NOT = ['not certified', 'suspended', 'wrong arm', 'wrong grade', 'not in strength'] as const

/** A post with who is named to it and whether they can stand that day. */
const Post = z
  .object({
    id: Uuid,
    title: z.string(),
    row: z.int(),
    place: z.int(),
    certification: Code,
    arm: Code.nullable(),
    grades: z.array(Code).nullable(),
    otherUnit: z.boolean().describe('A soldier is named whom you may not see.'),
    soldier: z
      .object({
        id: Uuid,
        name: z.string(),
        grade: z.string(),
        status: StatusWord,
        validThrough: Day.nullable(),
        whyNot: z.array(z.enum(WHY_NOT)),
      })
      .nullable(),
  })
  .meta({ id: 'Post' })

export const CeremonyDetail = z.object({ ...CeremonyHead, formation: z.array(Post) }).meta({ id: 'CeremonyDetail' })

export type CeremonyBody = z.infer<typeof CeremonyBody>
export type CeremonySummary = z.infer<typeof CeremonySummary>
export type CeremonyDetail = z.infer<typeof CeremonyDetail>
