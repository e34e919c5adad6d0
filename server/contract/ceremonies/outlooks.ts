import { z } from 'zod'
import { Code, Day, Page, page, Uuid } from '../common.ts'
import { CeremonySummary, Post } from './ceremonies.ts'
import { WhyNot } from './manning.ts'

const OUTLOOK_GROUPS = ['named', 'can stand', 'lapses before', 'could make it', 'cannot'] as const

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

const Counts = z.array(z.object({ certification: Code, group: z.enum(OUTLOOK_GROUPS), count: z.int() }))

export const Outlook = page(OutlookItem)
  .safeExtend({
    day: Day,
    counts: Counts,
  })
  .meta({ id: 'Outlook' })

/** A ceremony to come with its short posts and how the people of a unit stand with it. */
export const OutlookPage = page(
  z
    .object({ ceremony: CeremonySummary, short: z.array(Post), counts: Counts, people: z.array(OutlookItem) })
    .meta({ id: 'CeremonyOutlook' }),
).safeExtend({
  unitId: Uuid.nullable().describe('Whose people these are, with all below it; null: everybody in scope.'),
})

export const OutlookQuery = z.strictObject({
  ...Page,
  unitId: Uuid.optional().describe('With all below it; left out: everybody in scope of the unit that mans it.'),
})

export const OutlooksQuery = z.strictObject({
  ...Page,
  limit: z.coerce.number<number>().int().min(1).max(20).default(4),
  unitId: Uuid.optional().describe('With all below it; left out: the unit of the account.'),
})

export type OutlookItem = z.infer<typeof OutlookItem>
export type Outlook = z.infer<typeof Outlook>
export type OutlookPage = z.infer<typeof OutlookPage>
