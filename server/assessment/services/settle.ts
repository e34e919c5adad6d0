import { requireImpartial } from '../../access/services/require-impartial.ts'
import type { Catalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { lockSoldiers } from '../../db/locks.db.ts'
import { fromPlaceOn } from '../../domain/assessment/from-place-on.ts'
import type { SheetAssessment, StoodBefore } from '../../domain/assessment/types.ts'
import { notifyWaiting } from '../../notices/services/notify-award.ts'
import { notifySheet } from '../../notices/services/notify-sheet.ts'
import type { Note } from '../../record/services/recorded.ts'
import { findDependents, insertDecisions } from '../db/assessments.db.ts'
import type { Arrival } from './arrival.ts'
import { type NewGo, settleNeeds } from './settle-needs.ts'
import { type ChangedSheet, type MovedStanding, settleSoldiers } from './settle-soldiers.ts'
import { type Known, settleTallies } from './settle-tallies.ts'
import { awardedOtherwise, standsOtherwise } from './stands-otherwise.ts'

/** Something changed that the judgement of a soldier's sheets hangs on. */
export interface Trigger {
  readonly soldierId: string
  /** Sheets of the soldier that just arrived, were amended or decided about. */
  readonly newSheets?: readonly string[]
  /** From this day on the soldier may be certified, suspended or appointed otherwise than before, as grader or sponsor. */
  readonly qualifiesAnewFrom?: string
}

/**
 * What kind of act a change is. A _case_ is about somebody: nobody makes one that changes how they themselves stand, or
 * whom they coach. A _rule_ holds for everybody alike, so that it may change what counts toward one's own certification
 * from a day on, but nobody's award or retest whom one is not impartial to. A _graded_ test is judged by the conditions of
 * a valid test, which keep apart who coaches and who grades.
 */
type Act = 'case' | 'rule' | 'graded'

/** What became of a change. */
export interface Settlement {
  /** The sheets that stand otherwise now, as they stood before. */
  readonly stoodBefore: readonly StoodBefore[]
  /** Soldiers who stand otherwise on some day, or of whom a sheet counts or does not that did not or did before. */
  readonly standOtherwise: readonly string[]
  /** How the sheet that arrived stands; null: none did. */
  readonly arrived: SheetAssessment | null
}

interface Options {
  /** A case, unless told otherwise. */
  readonly act?: Act
  /** A sheet of the only soldier who triggers this, to be stored with how it is judged. */
  readonly arrival?: Arrival
  /** Tells of the sheet that arrived: before the tallies, for which other sheets wait from here to the end. */
  readonly tell?: (arrived: SheetAssessment) => Promise<void>
  /** False where all of it is thrown away again: whether tallies and bookings are right makes no difference then. */
  readonly tallies?: boolean
  /** True where entries are joined or parted: an award that waits by it is on the list to sign, and no news to anybody. */
  readonly quiet?: boolean
  /** Hears how many soldiers are judged, and how many are still to be. */
  readonly progress?: (done: number, waiting: number) => Promise<void>
}

/** So many soldiers are judged with one question about all of them. */
const TOGETHER = 200

/**
 * Brings everything derived up to date after a change, in its transaction: judges the soldiers' sheets again, keeps
 * standings, tallies and the bookings that a GO made pointless, and goes on to the candidates whose graders and sponsors
 * were certified or not by it. A sheet only ever hangs on earlier ones, so this comes to an end. Soldiers are judged some
 * by what others were before: so a sheet that began to count on the way may be held again until the end, and in what
 * order they were judged makes no difference. Whoever forgets about impartiality elsewhere cannot do so here: a change of
 * how somebody stands by who is not impartial to them is refused (AppError `impartiality`).
 */
export async function settle(
  tx: Transaction,
  catalogue: Catalogue,
  now: Date,
  triggers: readonly Trigger[],
  note: Note,
  { act = 'case', tallies = true, quiet = false, progress, arrival, tell }: Options = {},
): Promise<Settlement> {
  const before = new Map<string, StoodBefore>()
  const moved = new Map<string, ChangedSheet>()
  const standings = new Map<string, MovedStanding & { readonly soldierId: string }>()
  const waiting = new Map(triggers.map((one) => [one.soldierId, one]))
  const fresh = new Set(triggers.flatMap(({ newSheets = [] }) => newSheets))
  const undecided = new Set(fresh)
  const released = new Map<string, number>()
  const judged: string[] = []
  let arrived: SheetAssessment | null = null
  for (let done = 0; waiting.size > 0; ) {
    const batch = [...waiting.values()].slice(0, TOGETHER)
    for (const { soldierId } of batch) waiting.delete(soldierId)
    const ids = batch.map(({ soldierId }) => soldierId)
    judged.push(...ids)
    const { settled, sheets, ...found } = await settleSoldiers(
      tx,
      catalogue,
      ids,
      undecided,
      done === 0 ? arrival : undefined,
    )
    arrived ??= found.arrived
    for (const { before: stood, after } of sheets) {
      moved.set(after.id, { before: moved.get(after.id)?.before ?? stood, after })
    }
    for (const [soldierId, { standings: changed }] of settled) {
      for (const { before: stood, after } of changed) {
        const key = `${soldierId} ${after.certification}`
        const earlier = standings.get(key)?.before
        const isPart = earlier && arrival?.sheet.fields.candidateId === soldierId
        const stands = isPart ? fromPlaceOn(arrival.settled, after) : after
        standings.set(key, { soldierId, before: earlier ?? stood, after: stands })
      }
    }
    for (const { id, revision, before: state, after, tolerated } of [...settled.values()].flatMap(
      (one) => one.changes,
    )) {
      if (!before.has(id)) before.set(id, { id, revision, state, tolerated })
      if (after === 'held') released.delete(id)
      if (state !== 'held' || after !== 'counted' || fresh.has(id)) continue
      undecided.add(id)
      released.set(id, revision)
    }
    const anew = batch.flatMap(({ soldierId, qualifiesAnewFrom }) => {
      const fromDay = earliest(settled.get(soldierId)?.awardsChangedFrom, qualifiesAnewFrom)
      return fromDay === undefined ? [] : [{ id: soldierId, fromDay }]
    })
    const dependents = done === 0 && arrival?.vouches === false ? [] : await findDependents(tx, anew)
    if (dependents.length > 0) await lockSoldiers(tx, dependents)
    for (const id of dependents) if (!waiting.has(id)) waiting.set(id, { soldierId: id })
    done += batch.length
    await progress?.(done, waiting.size)
  }
  const sheets = [...moved.values()]
  if (arrived) arrived = moved.get(arrived.id)?.after ?? arrived
  if (act !== 'graded') {
    const differs = act === 'rule' ? awardedOtherwise : standsOtherwise
    await requireImpartial(tx, note, concerned(standings, sheets, fresh, differs))
  }
  if (arrived) await tell?.(arrived)
  if (tallies && !quiet) await notifyWaiting(tx, now, [...standings.values()].flatMap(beganToWait))
  if (tallies) await settleTallies(tx, catalogue, sheets, arrival && knownOf(arrival))
  if (tallies && (judged.length > 1 || arrival?.isBookedAhead !== false)) {
    await settleNeeds({ tx, catalogue, now, note }, judged, sheets.flatMap(newGo))
  }
  await recordReleases(tx, now, released, note)
  return {
    stoodBefore: [...before.values()],
    standOtherwise: concerned(standings, sheets, fresh, standsOtherwise),
    arrived,
  }
}

const knownOf = ({ sheet, content, lineages }: Arrival): Known => {
  return { contents: new Map([[sheet.fields.id, content]]), lineages }
}

/** Whose standing differs, and whose sheets (but those that just arrived) count or do not otherwise than before. */
function concerned(
  standings: ReadonlyMap<string, MovedStanding & { readonly soldierId: string }>,
  sheets: readonly ChangedSheet[],
  fresh: ReadonlySet<string>,
  differs: (before: MovedStanding['before'], after: MovedStanding['after']) => boolean,
): string[] {
  const standing = [...standings.values()].filter(({ before, after }) => differs(before, after))
  const judged = sheets.filter(({ before, after }) => before.state !== after.state && !fresh.has(after.id))
  return [
    ...new Set([...standing.map(({ soldierId }) => soldierId), ...judged.map(({ before }) => before.candidateId)]),
  ]
}

/** The award that waits for a commander now and did not before; none where a later one is in force already. */
function beganToWait({ soldierId, before, after }: MovedStanding & { readonly soldierId: string }) {
  const award = after.earned.at(-1)
  const waits = (one: typeof award) => one?.inForceFrom === null
  const waited = before.earned.some((one) => one.sheetId === award?.sheetId && waits(one))
  if (!award || !waits(award) || waited) return []
  return [{ soldierId, certification: after.certification, sheetId: award.sheetId, day: award.awardedOn }]
}

/** The GO that a sheet is which has begun to count; none where it is no such sheet. */
const newGo = ({ before, after }: ChangedSheet): NewGo[] => {
  const { id, candidateId, standard, standardId, day, outcome, purpose, isSecond, isVoid, state } = before
  const counts = after.state === 'counted' && state !== 'counted'
  const isGo = outcome === 'GO' && purpose === 'test' && !isSecond && !isVoid
  return counts && isGo ? [{ sheetId: id, candidateId, standard, standardId, day }] : []
}

/** Puts on record that sheets, by id with their revision, counted by themselves. */
async function recordReleases(tx: Transaction, at: Date, released: ReadonlyMap<string, number>, note: Note) {
  const reason = 'Nothing holds it any more.'
  const decision = { decision: 'count', reason, waived: [], at, byId: null } as const
  await insertDecisions(
    tx,
    [...released].map(([sheetId, revision]) => ({ ...decision, sheetId, revision })),
  )
  for (const id of released.keys()) {
    await notifySheet(tx, at, null, 'sheet counted', id)
    const subject = { kind: 'sheet', id }
    note({ action: 'sheet.counted-by-itself', subject, after: { state: 'counted' }, reason })
  }
}

function earliest(a: string | undefined, b: string | undefined): string | undefined {
  if (a === undefined || b === undefined) return a ?? b
  return a < b ? a : b
}
