import { requireAction } from '../../access/services/require.ts'
import { insertDecisions } from '../../assessment/db/assessments.db.ts'
import { settle } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import type { SheetDecisionBody, StoredSheet } from '../../contract/sheets/sheets.ts'
import { shareCatalogue } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { AppError, conflict, notFound } from '../../errors.ts'
import { tellSheet } from '../../notices/services/tell-sheet.ts'
import { recorded } from '../../record/services/recorded.ts'
import { lockSheet, setWaived } from '../db/sheet-decisions.db.ts'
import { requireImpartial } from './require-impartial.ts'
import { readStoredSheet, standingOf } from './stored-sheet.ts'

/**
 * The office decides about a held sheet: to count it, which waives what holds it, or to reject it. What can never be
 * waived can only be rejected (invalid); a sheet that is not held is a conflict, also when two decide at once.
 */
export async function decideSheet(
  context: Context,
  actor: Actor,
  id: string,
  { decision, reason }: SheetDecisionBody,
): Promise<StoredSheet> {
  requireAction(actor, 'decide-sheets')
  return recorded(context, actor, async (tx, note) => {
    await shareCatalogue(tx)
    const catalogue = await context.catalogue.current(tx)
    const sheet = await lockSheet(tx, id)
    if (!sheet) throw notFound('sheet')
    await requireImpartial(tx, actor, sheet.candidateId)
    if (sheet.state !== 'held') {
      throw conflict(
        'not-held',
        `This sheet is ${sheet.state}, not held; there is nothing to decide. Amend it if it is wrong.`,
      )
    }
    const never = sheet.violations.filter(({ waivable }) => !waivable)
    if (decision === 'count' && never[0]) {
      const items = never.map(({ rule, detail }) => ({ pointer: '/decision', rule, detail }))
      const remedy = 'This can never be waived. Reject the sheet, or amend it where it says the wrong thing.'
      throw new AppError('invalid', never[0].rule, `${never[0].detail} ${remedy}`, items)
    }
    const waived = decision === 'count' ? sheet.violations.map(({ rule }) => rule) : []
    const now = context.clock()
    await insertDecisions(tx, [
      { sheetId: id, revision: sheet.revision, decision, reason, waived, at: now, byId: actor.accountId },
    ])
    await setWaived(tx, id, decision === 'reject' ? 'rejected' : 'held', [...new Set([...sheet.waived, ...waived])])
    await settle(tx, catalogue, now, [{ soldierId: sheet.candidateId, newSheets: [id] }], note)
    const after = await readStoredSheet(tx, id)
    await tellSheet(tx, now, actor, decision === 'count' ? 'sheet counted' : 'sheet rejected', id)
    const subject = { kind: 'sheet', id }
    note({
      action: 'sheet.decided',
      subject,
      before: { state: 'held' },
      after: { ...standingOf(after), waived },
      reason,
    })
    return after
  })
}
