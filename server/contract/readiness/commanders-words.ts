import { z } from 'zod'
import { Code, Day, Page, PlainDate, page, Reason, Text, Uuid } from '../common.ts'

const Who = { soldierId: Uuid, rosterNumber: z.string(), name: z.string(), grade: z.string(), unitId: Uuid }

/** An award made by tests that waits for a commander. */
export const WaitingAward = z
  .object({
    ...Who,
    certification: Code,
    sheetId: Uuid.describe('The sheet that made it.'),
    awardedOn: Day,
    validThrough: Day,
    inForceFrom: Day.describe('From this day on it is in force, if signed today.'),
    certifiedThrough: Day.nullable().describe('The last day of the certification in force today; null: none is.'),
  })
  .meta({ id: 'WaitingAward' })

export const WaitingAwardPage = page(WaitingAward)

export const WaitingAwardQuery = z.strictObject({ ...Page, unitId: Uuid.optional(), soldierId: Uuid.optional() })

const Item = z.strictObject({ certification: Code, sheetId: Uuid })
const toKey = ({ certification, sheetId }: z.infer<typeof Item>) => `${certification} ${sheetId.toLowerCase()}`

export const AwardDecisionBody = z
  .strictObject({
    decision: z.enum(['approve', 'refuse']),
    on: PlainDate.optional().describe('Left out: today. Never after today, nor before an award.'),
    reason: Text.default('').describe('A refusal needs one.'),
    items: z
      .array(Item)
      .min(1)
      .max(200)
      .refine((items) => new Set(items.map(toKey)).size === items.length, { error: 'Name each award once.' })
      .describe('All are decided, or none.'),
  })
  .refine(({ decision, reason }) => decision === 'approve' || reason.trim() !== '', {
    error: 'Say why it is refused.',
    path: ['reason'],
  })
  .meta({ id: 'AwardDecisionBody' })

export const AwardDecisionsMade = z.object({ items: z.array(z.object({ id: Uuid })) })

export const ExtensionBody = z
  .strictObject({
    soldierId: Uuid,
    certification: Code,
    days: z.int().min(1).max(3660),
    kind: z.enum(['deployment', 'injury', 'other']),
    reason: Reason,
    on: PlainDate.optional().describe('Left out: today. Never after today, nor after the last day of the award.'),
  })
  .meta({ id: 'ExtensionBody' })

export const TakeBackBody = z.strictObject({ reason: Reason }).meta({ id: 'TakeBackBody' })

const TakenBack = z.object({ on: Day, reason: z.string() }).nullable()

/** What commanders said about a soldier's awards, the latest first, and what may be extended today. */
export const CommandersWords = z
  .object({
    decisions: z.array(
      z.object({
        id: Uuid,
        certification: Code,
        sheetId: Uuid,
        decision: z.enum(['approve', 'refuse']),
        on: Day,
        reason: z.string(),
        by: z.string().nullable(),
        takenBack: TakenBack,
      }),
    ),
    extensions: z.array(
      z.object({
        id: Uuid,
        certification: Code,
        days: z.int(),
        kind: ExtensionBody.shape.kind,
        on: Day,
        reason: z.string(),
        by: z.string().nullable(),
        takenBack: TakenBack,
      }),
    ),
    extendable: z.array(
      z.object({
        certification: Code,
        validThrough: Day,
        daysLeft: z.int().describe('By so many days it may be extended still.'),
      }),
    ),
  })
  .meta({ id: 'CommandersWords' })

export type WaitingAward = z.infer<typeof WaitingAward>
export type AwardDecisionBody = z.infer<typeof AwardDecisionBody>
export type ExtensionBody = z.infer<typeof ExtensionBody>
export type TakeBackBody = z.infer<typeof TakeBackBody>
export type CommandersWords = z.infer<typeof CommandersWords>
