import { isDeepStrictEqual } from 'node:util'
import { requireImpartial } from '../../access/services/require-impartial.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { NewSheet } from '../../assessment/db/new-sheets.db.ts'
import { settleBookings } from '../../assessment/db/settle-bookings.db.ts'
import { type Arrival, toStored } from '../../assessment/services/arrival.ts'
import { settle } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import type { SheetBody, StoredSheet } from '../../contract/sheets/sheets.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import { namedOn, presentPeople } from '../../domain/people/present-people.ts'
import { conflict, invalid } from '../../errors.ts'
import { type AboutSheet, notifySheet } from '../../notices/services/notify-sheet.ts'
import { recorded } from '../../record/services/recorded.ts'
import { readPresentIds } from '../../soldiers/db/merges/merges.db.ts'
import { readGround, type SheetGround } from '../db/arriving-sheet.db.ts'
import { lockForSheet, type SheetOpening } from '../db/sheet-opening.db.ts'
import { noteArm } from './note-arm.ts'
import { notifyDiffering } from './notify-differing.ts'
import { notifyLate } from './notify-late.ts'
import { requireSubmittable } from './require-submittable.ts'
import { closedScore, scoreBody } from './score-body.ts'
import { sheetFields, toInstant } from './sheet-fields.ts'
import { otherPeople, requirePeople } from './sheet-people.ts'
import { readStoredSheet, standingOf, toResult } from './stored-sheet.ts'

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
    const { people, body } = await lockPeople(tx, sent)
    await requireSubmittable(tx, actor, scope, body)
    const now = context.clock()
    const ground = await readGround(
      tx,
      {
        id,
        ...body,
        startedAt: toInstant(body.startedAt),
        finishedAt: toInstant(body.finishedAt),
        utcDay: utcDay(body),
      },
      now,
    )
    const catalogue = await context.catalogue.ofRevision(tx, ground.catalogueRevision)
    if (ground.firstBody) {
      if (isDeepStrictEqual(ground.firstBody, asStored(sent)))
        return { created: false, sheet: await readStoredSheet(tx, id) }
      throw conflict('id-used', `Another sheet is stored under ${id}. Send this one under an id of its own.`)
    }
    requireOwnBooking(actor, ground)
    requireReferences(id, body, { ...ground, people })
    await requireOwnGrading(tx, actor, body)
    const { version, score } = scoreBody(catalogue, body)
    const closed = closedScore(score)
    const day = dayInZone(body.finishedAt, ground.timeZone ?? context.timeZone)
    const sheet: NewSheet = {
      fields: {
        ...sheetFields(id, body, version, closed, day),
        state: body.purpose === 'practice' ? 'counted' : 'held',
        clockSkewMs: deviceTime ? deviceTime.getTime() - now.getTime() : null,
      },
      revision: { number: 1, at: now, byId: actor.accountId, reason: null, body: sent, score: closed },
    }
    await noteArm(tx, note, body, version)
    const { arrived } = await settle(tx, catalogue, now, [{ soldierId: body.candidateId, newSheets: [id] }], note, {
      act: isGradedBy(actor, body) ? 'graded' : 'case',
      arrival: toArrival(sheet, body, ground),
      tell: ({ state }) => tellOf(tx, now, actor, { ...body, sheetId: id, day, state }, ground),
    })
    const { state, violations, attempts } = arrived!
    const stored = {
      id,
      state,
      arrivedLate: ground.arrivesLate,
      result: toResult(closed, attempts),
      violations: [...violations],
    }
    const isBooked = ground.isBooked || ground.isBookedAhead
    if (body.purpose === 'test' && isBooked) await settleBookings(tx, body.candidateId, version.standardId)
    note({ action: 'sheet.submitted', subject: { kind: 'sheet', id }, after: standingOf(stored) })
    return { created: true, sheet: stored }
  })
}

/**
 * Shares the catalogue and locks everyone on a sheet. Out: those who are there, and the sheet under the ids they have now. Where
 * somebody is not, a merge may have been waited for, so merges are asked only then.
 */
async function lockPeople(tx: Transaction, sent: SheetBody): Promise<{ people: readonly string[]; body: SheetBody }> {
  const lock = (body: SheetBody) => lockForSheet(tx, { candidateId: body.candidateId, otherIds: otherPeople(body) })
  const people = await lock(sent)
  const named = namedOn(sent)
  if (named.every((id) => people.includes(id))) return { people, body: sent }
  const body = presentPeople(sent, await readPresentIds(tx, named))
  return { people: await lock(body), body }
}

/** Tells those on a sheet that it is in, and the office of what it has to look at. */
async function tellOf(
  tx: Transaction,
  now: Date,
  actor: Actor,
  sheet: AboutSheet & Pick<SheetBody, 'secondOf'> & Pick<StoredSheet, 'state'>,
  ground: SheetGround,
): Promise<void> {
  await notifySheet(tx, now, actor, sheet.state === 'held' ? 'sheet held' : 'sheet entered', sheet)
  if (sheet.secondOf !== null || ground.hasSecond) await notifyDiffering(tx, now, sheet)
  if (ground.arrivesLate) await notifyLate(tx, now, [sheet.sheetId])
}

function toArrival(sheet: NewSheet, body: SheetBody, ground: SheetGround): Arrival {
  const { dossier, settled, lineages, isBookedAhead } = ground
  const { candidateId, graderId, sponsorId, majors, minors } = body
  const stored = toStored(sheet, body.standard, body.standardVersion)
  return {
    sheet,
    dossier: { ...dossier, sheets: [...dossier.sheets, stored] },
    settled,
    content: { score: sheet.revision.score, majors, minors },
    lineages,
    vouches: ground.vouches || graderId === candidateId || sponsorId === candidateId,
    isBookedAhead,
  }
}

/**
 * The sheet of a booking has the booking's id, so nobody takes it but the booking's grader and the office. A sheet of
 * somebody else is not lost by it: under an id of its own it is stored as any other.
 */
function requireOwnBooking(actor: Actor, { bookingGraderId: graderId }: SheetGround): void {
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
export function requireReferences(
  id: string,
  body: SheetBody,
  opening: Pick<SheetOpening, 'people' | 'testDayExists'>,
): void {
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
