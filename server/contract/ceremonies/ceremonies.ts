import { z } from 'zod'
import { Code, Day, Instant, Page, PlainDate, page, Reason, Text, Uuid, Words } from '../common.ts'
import { StatusWord } from '../standards/certifications.ts'
import { WhyNot } from './manning.ts'

const HeightCm = z.int().min(100, 'Give the height in centimetres.').max(250, 'Give the height in centimetres.')
const Minutes = z.int().min(0).max(1440)

/** What a post asks for, and where it stands. */
const PostNeed = {
  title: Words,
  row: z.int().min(1).max(50).describe('Rank in which it forms up, 1 in front.'),
  place: z.int().min(1).max(100).describe('Place in the rank, from its right.'),
  certification: Code,
  arm: Code.nullable().default(null),
  grades: z.array(Code).max(100).nullable().default(null),
  minHeightCm: HeightCm.nullable().default(null),
  maxHeightCm: HeightCm.nullable().default(null),
}

const inBand = (post: { minHeightCm: number | null; maxHeightCm: number | null }) =>
  post.minHeightCm === null || post.maxHeightCm === null || post.minHeightCm <= post.maxHeightCm
const bandError = { error: 'The least height is above the greatest: correct one.', path: ['maxHeightCm'] }

const PostBody = z
  .strictObject({ ...PostNeed, soldierId: Uuid.nullable().default(null) })
  .refine(inBand, bandError)
  .meta({ id: 'PostBody' })

const PostChange = z
  .strictObject({
    ...PostNeed,
    id: Uuid.nullable().default(null).describe('Of a post that is there already; null: a new one.'),
    soldierId: Uuid.nullable().optional().describe('Left out: whoever is named stays.'),
  })
  .refine(inBand, bandError)
  .meta({ id: 'PostChange' })

const RehearsalBody = z
  .strictObject({ startsAt: Instant, endsAt: Instant, place: Text.default('') })
  .refine((rehearsal) => Date.parse(rehearsal.startsAt) < Date.parse(rehearsal.endsAt), {
    error: 'The rehearsal ends before it starts: correct startsAt or endsAt.',
    path: ['endsAt'],
  })
  .meta({ id: 'RehearsalBody' })

const Plan = {
  title: Words,
  place: Text.default(''),
  unitId: Uuid.describe('The unit that mans it, with all below it.'),
  reportsAt: Instant.nullable().default(null).describe('When those named report; null: at the start.'),
  startsAt: Instant,
  endsAt: Instant,
  minutesBefore: Minutes.default(0).describe('Duty already, so long before reporting and before rehearsals.'),
  minutesAfter: Minutes.default(0).describe('Duty still, so long after the end and after rehearsals.'),
  notes: Text.default('').describe('Printed on the roster: uniform, transport.'),
  rehearsals: z.array(RehearsalBody).max(20).default([]).describe('Everybody named must attend.'),
}

interface Times {
  reportsAt: string | null
  startsAt: string
  endsAt: string
}
const endsLater = ({ startsAt, endsAt }: Times) => Date.parse(startsAt) < Date.parse(endsAt)
const endError = { error: 'The ceremony ends before it starts: correct startsAt or endsAt.', path: ['endsAt'] }
const reportsFirst = ({ reportsAt, startsAt }: Times) =>
  reportsAt === null || Date.parse(reportsAt) <= Date.parse(startsAt)
const reportError = { error: 'Those named report after the start: correct reportsAt or startsAt.', path: ['reportsAt'] }

const PostIds = z.array(Uuid).max(400).default([]).describe('The posts stepped in for; none: any of the ceremony.')
const MAX_POSTS = 400
const MAX_ALTERNATES = 100

export const CeremonyBody = z
  .strictObject({
    ...Plan,
    posts: z.array(PostBody).min(1).max(MAX_POSTS),
    alternates: z.array(Uuid).max(MAX_ALTERNATES).default([]).describe('Soldiers who step in, the first asked first.'),
  })
  .refine(endsLater, endError)
  .refine(reportsFirst, reportError)
  .meta({ id: 'CeremonyBody' })

/** The version the change was made on; a change on an older one is refused. */
const Version = z.int().min(1).max(2_147_483_647)

export const CeremonyChange = z
  .strictObject({ ...Plan, version: Version, posts: z.array(PostChange).min(1).max(MAX_POSTS) })
  .refine(endsLater, endError)
  .refine(reportsFirst, reportError)
  .meta({ id: 'CeremonyChange' })

export const NamingBody = z
  .strictObject({
    version: Version,
    names: z
      .array(z.strictObject({ postId: Uuid, soldierId: Uuid.nullable().describe('Null: nobody.') }))
      .min(1)
      .max(MAX_POSTS),
  })
  .meta({ id: 'NamingBody' })

export const AlternatesBody = z
  .strictObject({
    version: Version,
    alternates: z
      .array(
        z.strictObject({
          id: Uuid.nullable().default(null).describe('Of an alternate who is there already.'),
          soldierId: Uuid.nullable().default(null).describe('Of a new one.'),
          postIds: PostIds,
        }),
      )
      .max(MAX_ALTERNATES)
      .describe('All of them in order; who is left out is one no longer.'),
  })
  .meta({ id: 'AlternatesBody' })

export const CancelBody = z.strictObject({ version: Version, reason: Reason }).meta({ id: 'CancelBody' })
export const ChangedCeremony = z.object({ version: z.int() }).meta({ id: 'ChangedCeremony' })
export const HeightBody = z.strictObject({ heightCm: HeightCm.nullable() }).meta({ id: 'HeightBody' })

const CeremonyHead = {
  id: Uuid,
  title: z.string(),
  place: z.string(),
  unitId: Uuid,
  reportsAt: Instant,
  startsAt: Instant,
  endsAt: Instant,
  day: Day,
  posts: z.int(),
  filled: z.int().describe('Posts named to a soldier who may stand there.'),
  cancelReason: z.string().nullable().describe('Null: it takes place.'),
}

export const CeremonySummary = z.object(CeremonyHead).meta({ id: 'CeremonySummary' })
export const CeremonyPage = page(CeremonySummary)

const NamedSoldier = z.object({
  id: Uuid,
  rosterNumber: z.string(),
  name: z.string(),
  grade: z.string(),
  unitId: Uuid.nullable(),
})

/** A post with who is named to it and whether they may stand there. */
export const Post = z
  .object({
    id: Uuid,
    title: z.string(),
    row: z.int(),
    place: z.int(),
    certification: Code,
    arm: Code.nullable(),
    grades: z.array(Code).nullable(),
    minHeightCm: z.int().nullable(),
    maxHeightCm: z.int().nullable(),
    filled: z.boolean().describe('Somebody is named who may stand there.'),
    otherUnit: z.boolean().describe('A soldier is named whom you may not see.'),
    soldier: NamedSoldier.safeExtend({
      status: StatusWord,
      validThrough: Day.nullable(),
      whyNot: z.array(WhyNot),
    }).nullable(),
  })
  .meta({ id: 'Post' })

const Alternate = z
  .object({
    id: Uuid,
    postIds: z.array(Uuid),
    otherUnit: z.boolean(),
    soldier: NamedSoldier.safeExtend({
      canTake: z.array(Uuid).describe('Posts, of those stepped in for, where the soldier may stand.'),
      whyNot: z.array(WhyNot).describe('What speaks against the post that fits best.'),
    }).nullable(),
  })
  .meta({ id: 'Alternate' })

export const CeremonyDetail = z
  .object({
    ...CeremonyHead,
    minutesBefore: z.int(),
    minutesAfter: z.int(),
    notes: z.string(),
    version: z.int(),
    may: z.enum(['plan', 'name', 'look']).describe('Plan all of it; name soldiers of your own unit; or only look.'),
    rehearsals: z.array(z.object({ startsAt: Instant, endsAt: Instant, day: Day, place: z.string() })),
    formation: z.array(Post),
    alternates: z.array(Alternate),
  })
  .meta({ id: 'CeremonyDetail' })

export const CeremonyQuery = z.strictObject({
  ...Page,
  from: PlainDate.optional().describe('Left out: today.'),
  through: PlainDate.optional().describe('Last day; left out: all that are planned.'),
  cancelled: z.enum(['with']).optional().describe('"with": those called off, too.'),
})

export type CeremonyBody = z.infer<typeof CeremonyBody>
export type CeremonyChange = z.infer<typeof CeremonyChange>
export type NamingBody = z.infer<typeof NamingBody>
export type AlternatesBody = z.infer<typeof AlternatesBody>
export type CeremonySummary = z.infer<typeof CeremonySummary>
export type CeremonyDetail = z.infer<typeof CeremonyDetail>
