import { requireAction } from '../../../access/services/require.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { AmendmentDecisionBody } from '../../../contract/sheets/amendments.ts'
import type { StoredSheet } from '../../../contract/sheets/sheets.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { AppError, conflict, notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { readPresentIds } from '../../../soldiers/db/merges/merges.db.ts'
import { closeProposal, lockProposal, sheetOfProposal } from '../../db/amendments.db.ts'
import { lockSheet } from '../../db/sheet-decisions.db.ts'
import { requireImpartial } from '../require-impartial.ts'
import { readStoredSheet } from '../stored-sheet.ts'
import { applyAmendment } from './apply-amendment.ts'
import { prepareAmendment } from './prepare-amendment.ts'

/**
 * Another person of the office confirms a proposed amendment, which puts it in force, or refuses it. Not who proposed it,
 * nor who graded or sponsored the test. One that is decided, or whose sheet was amended meanwhile, is a conflict.
 */
export async function decideAmendment(
  context: Context,
  actor: Actor,
  id: string,
  { decision, reason }: AmendmentDecisionBody,
): Promise<StoredSheet> {
  requireAction(actor, 'amend-sheets')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    const sheetId = await sheetOfProposal(tx, id)
    if (sheetId === null) throw notFound('amendment')
    const sheet = await lockSheet(tx, sheetId)
    const proposal = await lockProposal(tx, id)
    if (!sheet || !proposal) throw notFound('amendment')
    if (proposal.decision !== null) throw conflict('already-decided', 'This amendment was decided already.')
    const { graderId, sponsorId, candidateId } = proposal.body
    const involved = [graderId, sponsorId, candidateId].filter((one) => one !== null)
    const present = await readPresentIds(tx, involved)
    requireSecondPerson(actor, proposal.proposedById, [...involved, ...present.values()])
    await requireImpartial(tx, actor, sheet.candidateId)
    const now = context.clock()
    await closeProposal(tx, id, { decision, decisionReason: reason, decidedById: actor.accountId, decidedAt: now })
    note({
      action: 'sheet.amendment-decided',
      subject: { kind: 'sheet', id: sheetId },
      after: { proposalId: id, decision },
      reason,
    })
    if (decision === 'refuse') return readStoredSheet(tx, sheetId)
    if (proposal.revision !== sheet.revision) {
      throw conflict('sheet-changed', 'The sheet was amended after this was proposed. Refuse it and propose it anew.')
    }
    const prepared = await prepareAmendment(tx, context, actor, scope, sheetId, proposal.body)
    return applyAmendment(tx, prepared, { accountId: proposal.proposedById, reason: proposal.reason, now }, note)
  })
}

/** `involved`: those on the sheet, by the ids it was sent under and by those they go by since a merge. */
function requireSecondPerson(actor: Actor, proposedById: string, involved: readonly string[]): void {
  const isInvolved = actor.soldierId !== null && involved.includes(actor.soldierId)
  if (actor.accountId !== proposedById && !isInvolved) return
  const detail =
    'This takes another person of the office, who neither proposed it nor graded, sponsored or took the test.'
  throw new AppError('not-allowed', 'second-person', detail)
}
