import { notAllowed, requireAction } from '../../access/services/require.ts'
import { requireImpartial } from '../../access/services/require-impartial.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import { insertDecisions } from '../../assessment/db/assessments.db.ts'
import { settle } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import type { SheetDecisionBody, StoredSheet } from '../../contract/sheets/sheets.ts'
import { shareCatalogue } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { can } from '../../domain/access/permissions.ts'
import { asSuperior } from '../../domain/access/scope.ts'
import { AppError, conflict, notFound } from '../../errors.ts'
import { notifySheet } from '../../notices/services/notify-sheet.ts'
import { recorded } from '../../record/services/recorded.ts'
import { soldiersInScope } from '../../soldiers/db/roster.db.ts'
import { lockSheet, setWaived } from '../db/sheet-decisions.db.ts'
import { requireNoClerk } from './require-no-clerk.ts'
import { requireNotWriter } from './require-not-writer.ts'
import { readStoredSheet, standingOf } from './stored-sheet.ts'

/**
 * The office decides about a held sheet: to count it, which waives what holds it, or to reject it; not who entered or
 * amended it. What can never be waived can only be rejected (invalid); a sheet that is not held is a conflict, also when
 * two decide at once.
 */
export async function decideSheet(
  context: Context,
  actor: Actor,
  id: string,
  { decision, reason }: SheetDecisionBody,
): Promise<StoredSheet> {
  if (!can(actor, 'decide-sheets')) requireAction(actor, 'decide-for-want-of-a-clerk')
  const scope = asSuperior(await scopeFor(context, actor))
  return recorded(context, actor, async (tx, note) => {
    await shareCatalogue(tx)
    const catalogue = await context.catalogue.current(tx)
    const sheet = await lockSheet(tx, id)
    const visible = sheet ? await soldiersInScope(tx, scope, [sheet.candidateId]) : []
    if (!can(actor, 'decide-sheets')) {
      if (sheet?.state !== 'held' || visible.length === 0) throw notAllowed()
      await requireNoClerk(tx, id, sheet.candidateId)
    }
    if (!sheet || visible.length === 0) throw notFound('sheet')
    await requireImpartial(tx, actor, [sheet.candidateId])
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
    await requireNotWriter(tx, actor, id)
    const waived = decision === 'count' ? sheet.violations.map(({ rule }) => rule) : []
    const now = context.clock()
    await insertDecisions(tx, [
      { sheetId: id, revision: sheet.revision, decision, reason, waived, at: now, byId: actor.accountId },
    ])
    await setWaived(tx, id, decision === 'reject' ? 'rejected' : 'held', [...new Set([...sheet.waived, ...waived])])
    await settle(tx, catalogue, now, [{ soldierId: sheet.candidateId, newSheets: [id] }], note)
    const after = await readStoredSheet(tx, id)
    await notifySheet(tx, now, actor, decision === 'count' ? 'sheet counted' : 'sheet rejected', id)
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
