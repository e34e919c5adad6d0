import { isDeepStrictEqual } from 'node:util'
import { requireImpartial } from '../../access/services/require-impartial.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import { readBookingGrader, settleBookings } from '../../assessment/db/settle-bookings.db.ts'
import { settle } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import type { SheetBody, StoredSheet } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import { shareCatalogue } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { namedOn, presentPeople } from '../../domain/people/present-people.ts'
import { conflict, invalid } from '../../errors.ts'
import { notifySheet } from '../../notices/services/notify-sheet.ts'
import { recorded } from '../../record/services/recorded.ts'
import { readPresentIds } from '../../soldiers/db/merges/merges.db.ts'
import { insertSheet, openSheet, type SheetOpening } from '../db/sheets.db.ts'
import { noteArm } from './note-arm.ts'
import { notifyDiffering } from './notify-differing.ts'
import { notifyLate } from './notify-late.ts'
import { requireSubmittable } from './require-submittable.ts'
import { closedScore, scoreBody } from './score-body.ts'
import { sheetFields } from './sheet-fields.ts'
import { otherPeople, requirePeople } from './sheet-people.ts'
import { readStoredSheet, standingOf } from './stored-sheet.ts'

/**
 * Stores a finished test under the id its client gave it, once, whatever is repeated.
 *
 * In: the parsed body (kept as sent; ids given up in a merge lead to the soldier that was kept), and the instant the device's clock showed when it was sent (null: it did not say).
 * Out: the sheet as it stands, and whether it is new. A body that differs from the first under this id is a conflict;
 * a malformed or unfinished sheet and unknown people, standards or versions are invalid.
 */
export async function submitSheet(
  context: Context,
  actor: Actor,
  id: string,
  sent: SheetBody,
  deviceTime: Date | null,
): Promise<{ created: boolean; sheet: StoredSheet }> {
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    await shareCatalogue(tx)
    const body = presentPeople(sent, await readPresentIds(tx, namedOn(sent)))
    await requireSubmittable(tx, actor, scope, body)
    const catalogue = await context.catalogue.current(tx)
    const opening = await openSheet(tx, { id, ...body, otherIds: otherPeople(body), utcDay: utcDay(body) })
    if (opening.firstBody) {
      if (isDeepStrictEqual(opening.firstBody, asStored(sent)))
        return { created: false, sheet: await readStoredSheet(tx, id) }
      throw conflict('id-used', `Another sheet is stored under ${id}. Send this one under an id of its own.`)
    }
    await requireOwnBooking(tx, actor, id)
    requireReferences(id, body, opening)
    await requireOwnGrading(tx, actor, body)
    const { version, score } = scoreBody(catalogue, body)
    const closed = closedScore(score)
    const now = context.clock()
    const day = dayInZone(body.finishedAt, opening.timeZone ?? context.timeZone)
    await insertSheet(
      tx,
      {
        ...sheetFields(id, body, version, closed, day),
        state: body.purpose === 'practice' ? 'counted' : 'held',
        clockSkewMs: deviceTime ? deviceTime.getTime() - now.getTime() : null,
      },
      { number: 1, at: now, byId: actor.accountId, reason: null, body: sent, score: closed },
    )
    await noteArm(tx, note, body, version)
    const act = isGradedBy(actor, body) ? 'graded' : 'case'
    await settle(tx, catalogue, now, [{ soldierId: body.candidateId, newSheets: [id] }], note, { act })
    const sheet = await readStoredSheet(tx, id)
    if (body.purpose === 'test') await settleBookings(tx, body.candidateId, version.standardId)
    await notifySheet(tx, now, actor, sheet.state === 'held' ? 'sheet held' : 'sheet entered', id)
    await notifyDiffering(tx, now, id)
    if (sheet.arrivedLate) await notifyLate(tx, now, [id])
    note({ action: 'sheet.submitted', subject: { kind: 'sheet', id }, after: standingOf(sheet) })
    return { created: true, sheet }
  })
}

/**
 * The sheet of a booking has the booking's id, so nobody takes it but the booking's grader and the office. A sheet of
 * somebody else is not lost by it: under an id of its own it is stored as any other.
 */
async function requireOwnBooking(tx: Transaction, actor: Actor, id: string): Promise<void> {
  const graderId = await readBookingGrader(tx, id)
  if (graderId === null || graderId === actor.soldierId || actor.roles.includes('office')) return
  throw conflict(
    'booking-of-another-grader',
    'This test is booked with another grader, whose sheet will have this id. Nothing is lost: send this sheet under an id of its own.',
  )
}

/** Whether an account sends a test its owner graded: the conditions of a valid test say what it is worth. */
const isGradedBy = ({ soldierId }: Actor, body: SheetBody): boolean =>
  soldierId !== null && body.graderId === soldierId && body.outcomeOnly === null

/**
 * Refuses a test of one's own or of whom one coaches in another grader's name, or with nothing but its outcome. What one
 * graded oneself is stored, held where one coached; practice changes how nobody stands.
 */
async function requireOwnGrading(tx: Transaction, actor: Actor, body: SheetBody): Promise<void> {
  if (body.purpose === 'practice' || isGradedBy(actor, body)) return
  await requireImpartial(tx, actor, [body.candidateId])
}

/** A body as it is read back from the record: JSON has no -0. */
const asStored = (body: SheetBody): unknown => JSON.parse(JSON.stringify(body))

/** The UTC day of the end of a test, by which the candidate's unit and so the time zone is found. */
export const utcDay = (body: SheetBody): string => dayInZone(body.finishedAt, 'UTC')

/** Refuses a sheet that refers to what is not there. */
export function requireReferences(id: string, body: SheetBody, opening: SheetOpening): void {
  requirePeople(body, opening.people)
  if (!opening.testDayExists) throw invalid('unknown-test-day', '/testDayId', 'There is no such test day.')
  if (body.secondOf === id) {
    throw invalid(
      'second-of-itself',
      '/secondOf',
      'A sheet cannot be the second of itself; name the first grader’s sheet.',
    )
  }
}
