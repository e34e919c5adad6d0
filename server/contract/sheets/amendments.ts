import { z } from 'zod'
import { Instant, Page, page, Reason, Uuid } from '../common.ts'
import { SheetBody, SheetResult } from './sheets.ts'

/** An amendment that would change what counts, waiting for a second person. */
export const AmendmentProposal = z
  .object({
    id: Uuid,
    sheetId: Uuid,
    revision: z.int().describe('The revision it amends.'),
    reason: z.string(),
    proposedBy: z.string(),
    proposedAt: Instant,
    outcomeBefore: z.string(),
    outcomeAfter: z.string(),
    decision: z.enum(['confirm', 'refuse']).nullable(),
    decidedBy: z.string().nullable(),
    decidedAt: Instant.nullable(),
    decisionReason: z.string().nullable(),
    body: SheetBody,
    before: SheetBody.describe('What the revision says that it amends.'),
  })
  .meta({ id: 'AmendmentProposal' })

export const AmendmentProposalPage = page(AmendmentProposal)

/** Answer of an amendment that waits: nothing has changed yet. */
export const ProposedAmendment = z
  .object({ id: Uuid, state: z.literal('proposed'), sheetId: Uuid, result: SheetResult })
  .meta({ id: 'ProposedAmendment' })

export const AmendmentQuery = z.strictObject({ ...Page, open: z.enum(['true', 'false']).default('true') })

export const AmendmentDecisionBody = z
  .strictObject({ decision: z.enum(['confirm', 'refuse']), reason: Reason })
  .meta({ id: 'AmendmentDecisionBody' })

export type AmendmentProposal = z.infer<typeof AmendmentProposal>
export type ProposedAmendment = z.infer<typeof ProposedAmendment>
export type AmendmentDecisionBody = z.infer<typeof AmendmentDecisionBody>
