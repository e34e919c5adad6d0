import { z } from 'zod'
import { Instant, Page, page, Reason, Uuid } from '../common.ts'

/** Candidate or sponsor contests a closed sheet. */
export const AppealBody = z.strictObject({ reason: Reason }).meta({ id: 'AppealBody' })

export const AppealDecisionBody = z
  .strictObject({ decision: z.enum(['uphold', 'dismiss']), reason: Reason })
  .meta({ id: 'AppealDecisionBody' })

export const Appeal = z
  .object({
    id: Uuid,
    sheetId: Uuid,
    reason: z.string(),
    appealedBy: z.string(),
    appealedAt: Instant,
    decision: z
      .enum(['uphold', 'dismiss'])
      .nullable()
      .describe('Null while open. An upheld one is followed by an amendment.'),
    decidedBy: z.string().nullable(),
    decidedAt: Instant.nullable(),
    decisionReason: z.string().nullable(),
  })
  .meta({ id: 'Appeal' })

export const AppealPage = page(Appeal)

export const AppealQuery = z.strictObject({ ...Page, open: z.enum(['true', 'false']).default('true') })

export type Appeal = z.infer<typeof Appeal>
export type AppealBody = z.infer<typeof AppealBody>
export type AppealDecisionBody = z.infer<typeof AppealDecisionBody>
