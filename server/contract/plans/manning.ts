import { z } from 'zod'
import { Code, Day, Uuid } from '../common.ts'

const Chance = z.number().min(0).max(1)

const Somebody = {
  soldierId: Uuid,
  rosterNumber: z.string(),
  name: z.string(),
  grade: z.string(),
  unitId: Uuid,
}

const Proposed = z
  .object({
    ...Somebody,
    stood: z.int().describe('Ceremonies stood at in the 90 days before this one, named ahead included.'),
  })
  .meta({ id: 'ProposedSoldier' })

/** Somebody kept from a post by one thing alone. */
const WouldHelp = z
  .object({
    ...Somebody,
    by: z.enum(['test', 'absence', 'duty']).describe('A test passed in time, an absence or another duty moved.'),
    tests: z
      .array(z.object({ standard: Code, on: Day, booked: z.boolean(), testDayId: Uuid, pass: Chance }))
      .describe('In order, where it is a test: the next that would do.'),
    pass: Chance.nullable().describe('Of all of them.'),
    until: z.string().describe('What keeps them away, where it is no test: the kind of absence, or the duty.'),
  })
  .meta({ id: 'WouldHelp' })

/** Who could stand at the posts of a ceremony that nobody who may is named to. */
export const ManningProposal = z
  .object({
    ceremonyId: Uuid,
    version: z.int().describe('Of the ceremony that it was made for; to be sent with the names.'),
    open: z.int().describe('Posts without anybody who may stand there.'),
    posts: z.array(z.object({ postId: Uuid, soldier: Proposed })).describe('As they form up.'),
    alternates: z.array(Proposed),
    fair: z
      .object({ least: z.int(), most: z.int(), others: z.object({ least: z.int(), most: z.int() }).nullable() })
      .nullable()
      .describe('Ceremonies stood by those proposed for posts, and by the others who could stand at one of these.'),
    short: z
      .array(
        z.object({
          posts: z.array(Uuid),
          soldiers: z.array(z.object(Somebody)).describe('All who can take one of them: fewer than posts.'),
          wouldHelp: z.array(WouldHelp).describe('The likeliest first.'),
        }),
      )
      .describe('Posts that compete for too few soldiers.'),
  })
  .meta({ id: 'ManningProposal' })

export type ManningProposal = z.infer<typeof ManningProposal>
