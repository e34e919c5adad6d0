import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { ProposedAmendment } from '../../../contract/sheets/amendments.ts'
import type { SheetAmendment, StoredSheet } from '../../../contract/sheets/sheets.ts'
import type { Transaction } from '../../../db/client.ts'
import { isDuplicate } from '../../../db/database-errors.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { conflict } from '../../../errors.ts'
import { notifySheet } from '../../../notices/services/notify-sheet.ts'
import type { RecordEntry } from '../../../record/db/record.db.ts'
import { noteFor, recorded } from '../../../record/services/recorded.ts'
import { insertProposal } from '../../db/amendments.db.ts'
import { keepOrTakeBack } from '../../db/savepoint.db.ts'
import { toResult } from '../stored-sheet.ts'
import { applyAmendment } from './apply-amendment.ts'
import { type PreparedAmendment, prepareAmendment } from './prepare-amendment.ts'

/**
 * Amends a closed sheet; everything but candidate and standard may change, and the earlier revisions stay. The amendment
 * is worked out by the very code that puts it in force: what leaves all that counts as it is takes effect at once; what
 * changes any of it is taken back and proposed, and takes effect when a second person confirms it.
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
      const author = { accountId: actor.accountId, reason, now: context.clock() }
      const entries: RecordEntry[] = []
      const { sheet, changesWhatCounts } = await keepOrTakeBack(
        tx,
        () =>
          applyAmendment(
            tx,
            prepared,
            author,
            noteFor(actor, (entry) => entries.push(entry)),
          ),
        (applied) => !applied.changesWhatCounts,
      )
      if (!changesWhatCounts) {
        for (const entry of entries) note(entry)
        return { applied: sheet }
      }
      const { id: proposalId, entry } = await propose(tx, prepared, author, sheet)
      await notifySheet(tx, author.now, actor, 'amendment proposed', id, [prepared.body.graderId])
      note(entry)
      return {
        proposed: { id: proposalId, state: 'proposed', sheetId: id, result: toResult(prepared.score, []) },
      }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    const detail = 'An amendment of this sheet is waiting already. Have it confirmed or refused first.'
    throw conflict('amendment-waiting', detail)
  }
}

async function propose(
  tx: Transaction,
  { history, body, score, fields }: PreparedAmendment,
  { accountId, reason, now }: { accountId: string; reason: string; now: Date },
  worked: StoredSheet,
): Promise<{ id: string; entry: RecordEntry }> {
  const sheetId = fields.id
  const proposal = {
    sheetId,
    revision: history.sheet.revision,
    outcomeBefore: history.sheet.score.outcome ?? 'unfinished',
    outcomeAfter: score.outcome,
    body,
    reason,
    proposedById: accountId,
    proposedAt: now,
  }
  const id = await insertProposal(tx, proposal)
  const { outcomeBefore, outcomeAfter } = proposal
  const after = { proposalId: id, outcomeBefore, outcomeAfter, stateAfter: worked.state }
  const subject = { kind: 'sheet', id: sheetId }
  return { id, entry: { action: 'sheet.amendment-proposed', subject, after, reason } }
}
