import { isDeepStrictEqual } from 'node:util'
import { readDossier } from '../../../assessment/db/dossiers.db.ts'
import { settle } from '../../../assessment/services/settle.ts'
import { untally } from '../../../assessment/services/settle-tallies.ts'
import type { SheetBody, StoredSheet } from '../../../contract/sheets/sheets.ts'
import type { Transaction } from '../../../db/client.ts'
import { tellSheet } from '../../../notices/services/tell-sheet.ts'
import type { Note } from '../../../record/services/recorded.ts'
import { settleBookings } from '../../db/settle-bookings.db.ts'
import type { SheetHistory } from '../../db/sheet-reads.db.ts'
import { reviseSheet } from '../../db/sheets.db.ts'
import { readStoredSheet, standingOf } from '../stored-sheet.ts'
import type { PreparedAmendment } from './prepare-amendment.ts'

/**
 * Puts a prepared amendment in force: a new revision, judged again. What was waived stays waived; content that was in
 * force before is rejected or tolerated as it was then.
 */
export async function applyAmendment(
  tx: Transaction,
  { catalogue, history, body, score, fields }: PreparedAmendment,
  author: { readonly accountId: string; readonly reason: string; readonly now: Date },
  note: Note,
): Promise<StoredSheet> {
  const { id, candidateId } = fields
  const number = history.revisions.length + 1
  const before = (await readDossier(tx, candidateId)).sheets.find((sheet) => sheet.id === id)!
  await untally(tx, catalogue, before)
  const state = wasRejected(history, body) ? 'rejected' : body.purpose === 'practice' ? 'counted' : 'held'
  await reviseSheet(
    tx,
    { ...fields, state, clockSkewMs: before.clockSkewMs },
    { number, at: author.now, byId: author.accountId, reason: author.reason, body, score },
    toleratedOf(history, body),
  )
  await settle(tx, catalogue, author.now, [{ soldierId: candidateId, newSheets: [id] }], note)
  const after = await readStoredSheet(tx, id)
  await settleBookings(tx, candidateId, fields.standardId)
  if (after.state === 'held' && before.state !== 'held') await tellSheet(tx, author.now, null, 'sheet held', id)
  note({
    action: 'sheet.amended',
    subject: { kind: 'sheet', id },
    before: { revision: number - 1, state: history.sheet.state, outcome: history.sheet.score.outcome },
    after: { revision: number, ...standingOf(after) },
    reason: author.reason,
  })
  return after
}

/** What may be broken without holding the sheet: what was tolerated of the same content when it was last in force. */
function toleratedOf({ sheet, revisions }: SheetHistory, body: SheetBody): readonly string[] {
  const last = revisions.findLastIndex((revision) => isDeepStrictEqual(revision.body, body))
  if (last === -1) return []
  return revisions[last + 1]?.toleratedBefore ?? sheet.tolerated
}

/** A rejection is about what the sheet said: the same content is rejected again. */
function wasRejected({ revisions, decisions }: SheetHistory, body: SheetBody): boolean {
  return decisions.some(
    (one) =>
      one.decision === 'reject' &&
      isDeepStrictEqual(revisions.find(({ number }) => number === one.revision)?.body, body),
  )
}
