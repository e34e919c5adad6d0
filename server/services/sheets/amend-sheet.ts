import { isDeepStrictEqual } from 'node:util'
import type { SheetAmendment, StoredSheet } from '../../contract/sheets.ts'
import { readDossier } from '../../db/dossiers.db.ts'
import { shareCatalogue } from '../../db/locks.db.ts'
import { readSheetHistory, type SheetHistory } from '../../db/sheet-reads.db.ts'
import { openSheet, reviseSheet } from '../../db/sheets.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { AppError, notFound } from '../../errors.ts'
import { requireAction } from '../access/require.ts'
import { requireImpartial } from '../access/require-impartial.ts'
import { scopeFor } from '../access/scope-for.ts'
import { settle } from '../assessment/settle.ts'
import { untally } from '../assessment/settle-tallies.ts'
import type { Context } from '../context.ts'
import { recorded } from '../record/recorded.ts'
import { closedScore, scoreBody } from './score-body.ts'
import { sheetFields } from './sheet-fields.ts'
import { otherPeople } from './sheet-people.ts'
import { readStoredSheet, standingOf } from './stored-sheet.ts'
import { requireReferences, utcDay } from './submit-sheet.ts'

/**
 * Puts a new revision of a closed sheet in force; the earlier ones stay. Everything but candidate and standard may
 * change. The sheet is judged again, and what was waived stays waived; content that was rejected before is rejected.
 */
export async function amendSheet(
  context: Context,
  actor: Actor,
  id: string,
  { reason, sheet: body }: SheetAmendment,
): Promise<StoredSheet> {
  requireAction(actor, 'amend-sheets')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    await shareCatalogue(tx)
    const catalogue = await context.catalogue.current(tx)
    const opening = await openSheet(tx, { id, ...body, otherIds: otherPeople(body), utcDay: utcDay(body) })
    const history = await readSheetHistory(tx, scope, id)
    if (!history) throw notFound('sheet')
    requireSameTest(history, body)
    await requireImpartial(tx, actor, body.candidateId)
    requireReferences(id, body, opening)
    const { version, score } = scoreBody(catalogue, body)
    const closed = closedScore(score)
    const now = context.clock()
    const day = dayInZone(body.finishedAt, opening.timeZone ?? context.timeZone)
    const before = (await readDossier(tx, body.candidateId)).sheets.find((sheet) => sheet.id === id)!
    await untally(tx, before)
    const state = wasRejected(history, body) ? 'rejected' : body.purpose === 'practice' ? 'counted' : 'held'
    await reviseSheet(
      tx,
      { ...sheetFields(id, body, version, closed, day), state, clockSkewMs: before.clockSkewMs },
      { number: history.revisions.length + 1, at: now, byId: actor.accountId, reason, body, score: closed },
    )
    await settle(tx, catalogue, now, [{ soldierId: body.candidateId, newSheets: [id] }], note)
    const after = await readStoredSheet(tx, id)
    note({
      action: 'sheet.amended',
      subject: { kind: 'sheet', id },
      before: { revision: history.sheet.revision, state: history.sheet.state, outcome: history.sheet.score.outcome },
      after: { revision: history.revisions.length + 1, ...standingOf(after) },
      reason,
    })
    return after
  })
}

function requireSameTest({ sheet }: SheetHistory, body: SheetAmendment['sheet']): void {
  const items = (['candidateId', 'standard'] as const)
    .filter((field) => sheet.body[field] !== body[field])
    .map((field) => ({
      pointer: `/sheet/${field}`,
      rule: 'not-amendable',
      detail: 'An amendment keeps candidate and standard. Reject this sheet and enter the right one instead.',
    }))
  if (items[0]) throw new AppError('invalid', 'not-amendable', items[0].detail, items)
}

/** A rejection is about what the sheet said: the same content is rejected again. */
function wasRejected({ revisions, decisions }: SheetHistory, body: SheetAmendment['sheet']): boolean {
  return decisions.some(
    (one) =>
      one.decision === 'reject' &&
      isDeepStrictEqual(revisions.find(({ number }) => number === one.revision)?.body, body),
  )
}
