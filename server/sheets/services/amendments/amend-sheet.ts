import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { ProposedAmendment } from '../../../contract/sheets/amendments.ts'
import type { SheetAmendment, SheetBody, StoredSheet } from '../../../contract/sheets/sheets.ts'
import { isDuplicate } from '../../../db/database-errors.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { conflict } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { insertProposal } from '../../db/amendments.db.ts'
import type { SheetHistory } from '../../db/sheet-reads.db.ts'
import { toResult } from '../stored-sheet.ts'
import { applyAmendment } from './apply-amendment.ts'
import { prepareAmendment } from './prepare-amendment.ts'

/**
 * Amends a closed sheet; everything but candidate and standard may change, and the earlier revisions stay. What leaves
 * the outcome as it is takes effect at once; what changes it is proposed, and takes effect when another person of the
 * office confirms it.
 */
export async function amendSheet(
  context: Context,
  actor: Actor,
  id: string,
  { reason, sheet: body }: SheetAmendment,
): Promise<{ applied: StoredSheet } | { proposed: ProposedAmendment }> {
  requireAction(actor, 'amend-sheets')
  const scope = await scopeFor(context, actor)
  try {
    return await recorded(context, actor, async (tx, note) => {
      const prepared = await prepareAmendment(tx, context, actor, scope, id, body)
      const { history, score } = prepared
      const now = context.clock()
      if (!changesOutcome(history, body, score.outcome)) {
        return { applied: await applyAmendment(tx, prepared, { accountId: actor.accountId, reason, now }, note) }
      }
      const proposal = {
        sheetId: id,
        revision: history.sheet.revision,
        outcomeBefore: history.sheet.score.outcome ?? 'unfinished',
        outcomeAfter: score.outcome,
        body,
        reason,
        proposedById: actor.accountId,
        proposedAt: now,
      }
      const proposalId = await insertProposal(tx, proposal)
      const { outcomeBefore, outcomeAfter } = proposal
      const after = { proposalId, outcomeBefore, outcomeAfter }
      note({ action: 'sheet.amendment-proposed', subject: { kind: 'sheet', id }, after, reason })
      return { proposed: { id: proposalId, state: 'proposed', sheetId: id, result: toResult(score, []) } }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    const detail = 'An amendment of this sheet is waiting already. Have it confirmed or refused first.'
    throw conflict('amendment-waiting', detail)
  }
}

/** Whether an amendment changes what the sheet comes to: its outcome, or whether it is an attempt at all. */
function changesOutcome({ sheet }: SheetHistory, body: SheetBody, outcome: string): boolean {
  return sheet.score.outcome !== outcome || sheet.body.purpose !== body.purpose || sheet.body.secondOf !== body.secondOf
}
