import { z } from 'zod'
import { Day, Instant, Page, page, Reason, Uuid } from '../common.ts'
import { Soldier } from './soldiers.ts'

/** The entry that is given up for the one in the address. */
export const MergePreviewBody = z.strictObject({ awayId: Uuid }).meta({ id: 'MergePreviewBody' })

export const MergeBody = z.strictObject({ awayId: Uuid, reason: Reason }).meta({ id: 'MergeBody' })

const Obstacle = z.object({ rule: z.string(), detail: z.string() })

/** What merging two entries of one soldier would do. With obstacles it cannot be done, and the rest is empty. */
export const MergePreview = z
  .object({
    kept: Soldier,
    away: Soldier,
    obstacles: z.array(Obstacle),
    moves: z.array(z.object({ what: z.string(), count: z.int() })).describe('What is the kept one’s afterwards.'),
    putAside: z.array(z.object({ what: z.string(), count: z.int() })).describe('What the kept one has already.'),
    periods: z
      .array(z.object({ from: Day, through: Day.nullable(), unitId: Uuid, grade: z.string() }))
      .describe('Of the kept one afterwards. On days of both entries the kept one’s hold.'),
    sameTimes: z
      .array(z.object({ standard: z.string(), day: Day, sheetId: Uuid, otherId: Uuid }))
      .describe('Tests of both at one time: one and the same test, or one that was somebody else’s.'),
    judged: z.array(z.object({ state: z.string(), count: z.int() })).describe('Sheets that come to stand otherwise.'),
  })
  .meta({ id: 'MergePreview' })

export const Merge = z
  .object({
    id: Uuid,
    keptId: Uuid,
    keptName: z.string(),
    awayId: Uuid,
    away: z
      .string()
      .nullable()
      .describe(
        'Number and name of the entry given up; null once undone, or when the kept one’s personal data was removed.',
      ),
    at: Instant,
    by: z.string().nullable(),
    reason: z.string(),
    undoneAt: Instant.nullable(),
    undoReason: z.string().nullable(),
  })
  .meta({ id: 'Merge' })
export const MergePage = page(Merge)

export const MergeQuery = z.strictObject({ ...Page, soldierId: Uuid.optional().describe('The entry that was kept.') })

export type MergePreviewBody = z.infer<typeof MergePreviewBody>
export type MergeBody = z.infer<typeof MergeBody>
export type MergePreview = z.infer<typeof MergePreview>
export type Merge = z.infer<typeof Merge>
