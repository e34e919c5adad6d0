import { requireAction } from '../../../access/services/require.ts'
import { requireImpartial } from '../../../access/services/require-impartial.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { AmendmentDecisionBody } from '../../../contract/sheets/amendments.ts'
import type { StoredSheet } from '../../../contract/sheets/sheets.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { asSuperior } from '../../../domain/access/scope.ts'
import { AppError, conflict, notFound } from '../../../errors.ts'
import { notifySheet } from '../../../notices/services/notify-sheet.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { readPresentIds } from '../../../soldiers/db/merges/merges.db.ts'
import { soldiersInScope } from '../../../soldiers/db/roster.db.ts'
import { closeProposal, lockProposal, sheetOfProposal } from '../../db/amendments.db.ts'
import { readDuplicateOf, readThoseOnSheet } from '../../db/duplicates.db.ts'
import { lockSheet } from '../../db/sheet-decisions.db.ts'
import { requireNotWriter } from '../require-not-writer.ts'
import { readStoredSheet } from '../stored-sheet.ts'
import { applyAmendment } from './apply-amendment.ts'
import { prepareAmendment } from './prepare-amendment.ts'

/**
 * Another person of the office, or a commander above the candidate, confirms a proposed amendment, which puts it in force,
 * or refuses it. Not who entered or amended the sheet or proposed it, nor who graded or sponsored the test; where one sheet
 * is said to duplicate another, that goes for both. One that is
 * decided, or whose sheet was amended meanwhile, is a conflict.
 */
export async function decideAmendment(
  context: Context,
  actor: Actor,
  id: string,
  { decision, reason }: AmendmentDecisionBody,
): Promise<StoredSheet> {
  requireAction(actor, 'confirm-amendments')
  const scope = asSuperior(await scopeFor(context, actor))
  return recorded(context, actor, async (tx, note) => {
    const sheetId = await sheetOfProposal(tx, id)
    if (sheetId === null) throw notFound('amendment')
    const sheet = await lockSheet(tx, sheetId)
    const proposal = await lockProposal(tx, id)
    if (!sheet || !proposal) throw notFound('amendment')
    if ((await soldiersInScope(tx, scope, [sheet.candidateId])).length === 0) throw notFound('amendment')
    if (proposal.decision !== null) throw conflict('already-decided', 'This amendment was decided already.')
    const { graderId, sponsorId, candidateId } = proposal.body
    const other = proposal.body.duplicateOf ?? (await readDuplicateOf(tx, sheetId))
    const ofOther = other ? await readThoseOnSheet(tx, other) : []
    const involved = [graderId, sponsorId, candidateId, ...ofOther].filter((one) => one !== null)
    const present = await readPresentIds(tx, involved)
    await requireImpartial(tx, actor, [sheet.candidateId])
    requireUninvolved(actor, [...involved, ...present.values()])
    await requireNotWriter(tx, actor, sheetId)
    if (other) await requireNotWriter(tx, actor, other)
    const now = context.clock()
    await closeProposal(tx, id, { decision, decisionReason: reason, decidedById: actor.accountId, decidedAt: now })
    note({
      action: 'sheet.amendment-decided',
      subject: { kind: 'sheet', id: sheetId },
      after: { proposalId: id, decision },
      reason,
    })
    if (decision === 'refuse') {
      await notifySheet(tx, now, actor, 'amendment refused', sheetId, [graderId])
      return readStoredSheet(tx, sheetId)
    }
    if (proposal.revision !== sheet.revision) {
      throw conflict('sheet-changed', 'The sheet was amended after this was proposed. Refuse it and propose it anew.')
    }
    const prepared = await prepareAmendment(tx, context, actor, scope, sheetId, proposal.body)
    const author = { accountId: proposal.proposedById, reason: proposal.reason, now }
    return (await applyAmendment(tx, prepared, author, note)).sheet
  })
}

/** `involved`: those on the sheet, by the ids it was sent under and by those they go by since a merge. */
function requireUninvolved({ soldierId }: Actor, involved: readonly string[]): void {
  if (soldierId === null || !involved.includes(soldierId)) return
  throw new AppError(
    'not-allowed',
    'second-person',
    'This takes somebody who neither graded, sponsored nor took the test.',
  )
}
