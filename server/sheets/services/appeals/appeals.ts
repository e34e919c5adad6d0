import { requireAction } from '../../../access/services/require.ts'
import { requireImpartial } from '../../../access/services/require-impartial.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import type { Appeal, AppealBody, AppealDecisionBody } from '../../../contract/sheets/appeals.ts'
import { isDuplicate } from '../../../db/database-errors.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { AppError, conflict, notFound } from '../../../errors.ts'
import { notifySheet } from '../../../notices/services/notify-sheet.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { closeAppeal, insertAppeal, listAppeals, lockAppeal, readAppealedSheet } from '../../db/appeals.db.ts'
import { appealableUntil } from './appealable-until.ts'

/**
 * Candidate or sponsor contests a closed test sheet, within the set days after its content was stored. One appeal of a
 * sheet is open at a time.
 */
export async function appealSheet(
  context: Context,
  actor: Actor,
  sheetId: string,
  { reason }: AppealBody,
): Promise<{ id: string }> {
  const scope = await scopeFor(context, actor)
  try {
    return await recorded(context, actor, async (tx, note) => {
      const sheet = await readAppealedSheet(tx, scope, sheetId)
      if (!sheet) throw notFound('sheet')
      if (actor.soldierId === null || ![sheet.candidateId, sheet.sponsorId].includes(actor.soldierId)) {
        throw new AppError(
          'not-allowed',
          'not-yours-to-appeal',
          'Only the candidate and the sponsor on the sheet may appeal.',
        )
      }
      const now = context.clock()
      if (now > appealableUntil(context, sheet.revisedAt)) {
        const detail = `An appeal is possible for ${context.appealDays} days after the sheet was stored. Speak to the training office.`
        throw conflict('too-late-to-appeal', detail)
      }
      const id = await insertAppeal(tx, { sheetId, reason, appealedById: actor.accountId, appealedAt: now })
      await notifySheet(tx, now, actor, 'appealed', sheetId)
      note({ action: 'sheet.appealed', subject: { kind: 'sheet', id: sheetId }, after: { appealId: id }, reason })
      return { id }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw conflict('appeal-open', 'An appeal of this sheet is open already; wait for its decision.')
  }
}

/**
 * The office decides about an appeal: somebody who neither appealed nor graded, sponsored or coached. An upheld one is
 * followed by an amendment of the sheet; the decision stays with the sheet.
 */
export async function decideAppeal(
  context: Context,
  actor: Actor,
  id: string,
  { decision, reason }: AppealDecisionBody,
): Promise<{ id: string }> {
  requireAction(actor, 'decide-sheets')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    const appeal = await lockAppeal(tx, id)
    const sheet = appeal && (await readAppealedSheet(tx, scope, appeal.sheetId))
    if (!appeal || !sheet) throw notFound('appeal')
    if (appeal.decision !== null) throw conflict('already-decided', 'This appeal was decided already.')
    const involved = actor.soldierId !== null && [sheet.graderId, sheet.sponsorId].includes(actor.soldierId)
    if (involved || appeal.appealedById === actor.accountId) {
      const detail = 'This takes a person of the office who neither appealed nor graded or sponsored the test.'
      throw new AppError('not-allowed', 'second-person', detail)
    }
    await requireImpartial(tx, actor, [sheet.candidateId])
    const decidedAt = context.clock()
    await closeAppeal(tx, id, { decision, decisionReason: reason, decidedById: actor.accountId, decidedAt })
    await notifySheet(tx, decidedAt, actor, decision === 'uphold' ? 'appeal upheld' : 'appeal denied', appeal.sheetId)
    const subject = { kind: 'sheet', id: appeal.sheetId }
    note({ action: 'sheet.appeal-decided', subject, after: { appealId: id, decision }, reason })
    return { id }
  })
}

/** Appeals in scope, oldest first: those open, or those decided. */
export async function findAppeals(
  context: Context,
  actor: Actor,
  query: { open: 'true' | 'false'; limit: number; after?: string | undefined },
): Promise<{ items: Appeal[]; next: string | null }> {
  const key = fromCursor(query.after, ['instant', 'uuid'])
  const after = key && { appealedAt: String(key[0]), id: String(key[1]) }
  const scope = await scopeFor(context, actor)
  const rows = await listAppeals(context.db, scope, { open: query.open === 'true' }, { limit: query.limit + 1, after })
  return toPage(
    rows,
    query.limit,
    ({ appealedAt, id }) => [appealedAt, id],
    (appeal) => appeal,
  )
}
