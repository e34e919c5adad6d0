import { isDeepStrictEqual } from 'node:util'
import { readDossier, type StoredSheet as StandingSheet } from '../../../assessment/db/dossiers.db.ts'
import { settleBookings } from '../../../assessment/db/settle-bookings.db.ts'
import { settle } from '../../../assessment/services/settle.ts'
import { untally } from '../../../assessment/services/settle-tallies.ts'
import type { SheetBody, StoredSheet } from '../../../contract/sheets/sheets.ts'
import type { Transaction } from '../../../db/client.ts'
import { compareSheets } from '../../../domain/certification/sheet-order.ts'
import { isUntouched, type LookedAt } from '../../../domain/validity/looks-at.ts'
import { notifySheet } from '../../../notices/services/notify-sheet.ts'
import type { Note } from '../../../record/services/recorded.ts'
import type { SheetHistory } from '../../db/sheet-reads.db.ts'
import { reviseSheet } from '../../db/sheets.db.ts'
import { noteArm } from '../note-arm.ts'
import { readStoredSheet, standingOf } from '../stored-sheet.ts'
import type { PreparedAmendment } from './prepare-amendment.ts'

/** What an amendment comes to. */
export interface Applied {
  readonly sheet: StoredSheet
  /**
   * Whether it changes what counts: state of the sheet or what holds it, outcome, purpose, day, place among the soldier's
   * sheets, version, arm, sponsor, grader, first grader's sheet; or anybody's status, award or retest on any day, or whether
   * a sheet of anybody counts.
   */
  readonly changesWhatCounts: boolean
}

/**
 * Puts a prepared amendment in force: a new revision, judged again. What was waived stays waived; content that was in
 * force before is rejected or tolerated as it was then, and what was tolerated of the revision before still is where the
 * amendment touches nothing that the condition looks at. One that says which sheet this one duplicates rejects it.
 */
export async function applyAmendment(
  tx: Transaction,
  { catalogue, version, history, body, score, fields }: PreparedAmendment,
  author: { readonly accountId: string; readonly reason: string; readonly now: Date },
  note: Note,
): Promise<Applied> {
  const { id, candidateId } = fields
  const number = history.revisions.length + 1
  const { sheets } = await readDossier(tx, candidateId)
  const before = sheets.find((sheet) => sheet.id === id)!
  const amended = { ...before, ...amendedFacts(body, fields), outcome: score.outcome }
  await untally(tx, catalogue, before)
  const isSetAside = body.duplicateOf !== undefined || wasRejected(history, body)
  const state = isSetAside ? 'rejected' : body.purpose === 'practice' ? 'counted' : 'held'
  await reviseSheet(
    tx,
    { ...fields, state, clockSkewMs: before.clockSkewMs },
    { number, at: author.now, byId: author.accountId, reason: author.reason, body, score },
    toleratedOf(history, body, before, amended),
  )
  await noteArm(tx, note, body, version)
  const disturbed = [{ soldierId: candidateId, newSheets: [id] }]
  const { standOtherwise } = await settle(tx, catalogue, author.now, disturbed, note)
  const after = await readStoredSheet(tx, id)
  await settleBookings(tx, candidateId, fields.standardId)
  const isNewlyHeld = after.state === 'held' && before.state !== 'held'
  await notifySheet(tx, author.now, null, isNewlyHeld ? 'sheet held' : 'sheet amended', id, [before.graderId])
  note({
    action: 'sheet.amended',
    subject: { kind: 'sheet', id },
    before: { revision: number - 1, state: history.sheet.state, outcome: history.sheet.score.outcome },
    after: { revision: number, ...standingOf(after), ...(body.duplicateOf && { duplicateOf: body.duplicateOf }) },
    reason: author.reason,
  })
  const changesWhatCounts =
    standOtherwise.length > 0 ||
    !isDeepStrictEqual(standing(before.state, before.violations), standing(after.state, after.violations)) ||
    COUNTING.some((fact) => before[fact] !== amended[fact]) ||
    !isDeepStrictEqual(inOrder(sheets), inOrder([...sheets.filter((sheet) => sheet !== before), amended]))
  return { sheet: after, changesWhatCounts }
}

const COUNTING = ['outcome', 'purpose', 'day', 'version', 'arm', 'sponsorId', 'graderId', 'secondOf'] as const

/** The state of a sheet, and the conditions that hold it where it is held. */
const standing = (state: string, violations: readonly { rule: string }[]) => ({
  state,
  heldBy: state === 'held' ? violations.map(({ rule }) => rule) : [],
})

const inOrder = (sheets: readonly StandingSheet[]): string[] => [...sheets].sort(compareSheets).map(({ id }) => id)

function amendedFacts(body: SheetBody, fields: PreparedAmendment['fields']) {
  const { purpose, secondOf, sponsorId, graderId, arm, day, voidAfterFailure, conditionsMet } = fields
  return {
    ...{ purpose, secondOf, sponsorId, graderId, arm, day, voidAfterFailure, conditionsMet },
    version: body.standardVersion,
    finishedAt: Date.parse(fields.finishedAt),
    isVoid: fields.ending === 'void',
  }
}

/** What may be broken without holding the sheet. */
function toleratedOf(
  { sheet, revisions }: SheetHistory,
  body: SheetBody,
  before: LookedAt,
  amended: LookedAt,
): readonly string[] {
  const last = revisions.findLastIndex((revision) => isDeepStrictEqual(revision.body, body))
  const then = last === -1 ? [] : (revisions[last + 1]?.toleratedBefore ?? sheet.tolerated)
  return [...new Set([...then, ...sheet.tolerated.filter((rule) => isUntouched(rule, before, amended))])]
}

/** A rejection is about what the sheet said: the same content is rejected again. */
function wasRejected({ revisions, decisions }: SheetHistory, body: SheetBody): boolean {
  return decisions.some(
    (one) =>
      one.decision === 'reject' &&
      isDeepStrictEqual(revisions.find(({ number }) => number === one.revision)?.body, body),
  )
}
