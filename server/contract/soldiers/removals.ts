import { z } from 'zod'
import { Instant, Reason, Text, Uuid } from '../common.ts'
import { Soldier } from './soldiers.ts'

/** Irreversible: typed by whoever does it, so that nobody else is removed by a slip. */
export const RemovalBody = z
  .strictObject({
    reason: Reason.describe('Why, such as the rule of the unit; it stays in the record, so name nobody.'),
    confirmation: Text.describe('The roster number of the soldier.'),
  })
  .meta({ id: 'RemovalBody' })

const Counts = z.array(z.object({ what: z.string(), count: z.int() }))

/** What removing a soldier's personal data would take out, what stays, and where else the name may stand. */
export const RemovalPreview = z
  .object({
    soldier: Soldier,
    obstacles: z.array(z.object({ rule: z.string(), detail: z.string() })).describe('With one it cannot be done.'),
    goes: Counts,
    stays: Counts,
    entries: z.object({ who: z.int(), what: z.int() }).describe('Entries of the record that would be emptied.'),
    account: z.string().nullable(),
    mentions: z
      .array(
        z.object({
          what: z.string(),
          count: z.int(),
          places: z.array(
            z.object({ kind: z.enum(['sheet', 'soldier', 'ceremony', 'test day', 'none']), id: z.string() }),
          ),
        }),
      )
      .describe('Words about others in which the number or the family name stands; they are left as they are.'),
  })
  .meta({ id: 'RemovalPreview' })

export const Removed = z
  .object({ id: Uuid, rosterNumber: z.string(), at: Instant })
  .describe('What the soldier goes by now.')
  .meta({ id: 'Removed' })

export type RemovalBody = z.infer<typeof RemovalBody>
export type RemovalPreview = z.infer<typeof RemovalPreview>
export type Removed = z.infer<typeof Removed>
