import { requireImpartial } from '../../../access/services/require-impartial.ts'
import type { SheetFields } from '../../../assessment/db/new-sheets.db.ts'
import type { Context } from '../../../context/context.ts'
import type { SheetBody } from '../../../contract/sheets/sheets.ts'
import type { Catalogue, StandardVersion } from '../../../db/catalogue.db.ts'
import type { Transaction } from '../../../db/client.ts'
import { shareCatalogue } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import type { Scope } from '../../../domain/access/scope.ts'
import { dayInZone } from '../../../domain/calendar/day-in-zone.ts'
import { namedOn, presentPeople } from '../../../domain/people/present-people.ts'
import type { ClosedScore } from '../../../domain/scoring/types.ts'
import { AppError, notFound } from '../../../errors.ts'
import { readPresentIds } from '../../../soldiers/db/merges/merges.db.ts'
import { openSheet } from '../../db/sheet-opening.db.ts'
import { readSheetHistory, type SheetHistory } from '../../db/sheet-reads.db.ts'
import { closedScore, scoreBody } from '../score-body.ts'
import { sheetFields } from '../sheet-fields.ts'
import { otherPeople } from '../sheet-people.ts'
import { requireReferences, utcDay } from '../submit-sheet.ts'
import { requireDuplicate } from './require-duplicate.ts'

/** An amendment that has been found sound; the candidate is locked. */
export interface PreparedAmendment {
  readonly catalogue: Catalogue
  readonly version: StandardVersion
  readonly history: SheetHistory
  readonly body: SheetBody
  readonly score: ClosedScore
  readonly fields: Omit<SheetFields, 'state' | 'clockSkewMs'>
}

/** Locks what an amendment touches and checks it: same candidate and standard, people there, well-formed, finished. */
export async function prepareAmendment(
  tx: Transaction,
  context: Context,
  actor: Actor,
  scope: Scope,
  id: string,
  sent: SheetBody,
): Promise<PreparedAmendment> {
  await shareCatalogue(tx)
  const body = presentPeople(sent, await readPresentIds(tx, namedOn(sent)))
  const catalogue = await context.catalogue.current(tx)
  const opening = await openSheet(tx, { id, ...body, otherIds: otherPeople(body), utcDay: utcDay(body) })
  const history = await readSheetHistory(tx, scope, id)
  if (!history) throw notFound('sheet')
  const prepared = inSheetField(() => {
    requireSameTest(history, body)
    requireReferences(id, body, opening)
    const { version, score } = scoreBody(catalogue, body)
    const closed = closedScore(score)
    const day = dayInZone(body.finishedAt, opening.timeZone ?? context.timeZone)
    return { catalogue, version, history, body, score: closed, fields: sheetFields(id, body, version, closed, day) }
  })
  if (body.duplicateOf !== history.sheet.body.duplicateOf) await requireDuplicate(tx, body, prepared.fields)
  await requireImpartial(tx, actor, [body.candidateId])
  return prepared
}

function requireSameTest({ sheet }: SheetHistory, body: SheetBody): void {
  const detail = 'An amendment keeps candidate and standard. Reject this sheet and enter the right one instead.'
  const items = (['candidateId', 'standard'] as const)
    .filter((field) => sheet.body[field] !== body[field])
    .map((field) => ({ pointer: `/${field}`, rule: 'not-amendable' as const, detail }))
  if (items[0]) throw new AppError('invalid', 'not-amendable', detail, items)
}

/** The amended sheet is the field `sheet` of the request: what is wrong in it is pointed to from there. */
function inSheetField<Result>(check: () => Result): Result {
  try {
    return check()
  } catch (error) {
    if (!(error instanceof AppError)) throw error
    const items = error.items.map((item) => ({ ...item, pointer: `/sheet${item.pointer}` }))
    throw new AppError(error.kind, error.rule, error.message, items)
  }
}
