import {
  deleteUnit,
  insertUnit,
  isAtOrBelow,
  readTimeZone,
  unitIsNamedBy,
  updateUnit,
} from '../../access/db/units.db.ts'
import { requireAction } from '../../access/services/require.ts'
import { settle } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import type { UnitMoveBody, UnitMoved, UnitMovePreview } from '../../contract/soldiers/unit-moves.ts'
import { bumpRevision, readCatalogue } from '../../db/catalogue.db.ts'
import type { Transaction } from '../../db/client.ts'
import { lockCatalogue, lockSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { carryOver } from '../../domain/people/carry-over.ts'
import { soldierPeriods } from '../../domain/people/soldier-periods.ts'
import { conflict, invalid, notFound } from '../../errors.ts'
import { type Note, recorded } from '../../record/services/recorded.ts'
import { changesOf, insertChanges, replacePeriods } from '../db/many-soldiers.db.ts'
import {
  countPlanned,
  keepPlace,
  lockTree,
  type MovingUnit,
  peopleFrom,
  readTree,
  removeFromPasts,
  renameInChanges,
  renameInTerms,
  requiredOtherwise,
  takeAlong,
} from '../db/unit-moves.db.ts'
import { requireOpenAbove } from './units.ts'

/** More people are moved in parts: a company at a time. */
const MOST_PEOPLE = 5_000

interface Plan {
  /** The unit first, then the open ones below it. */
  readonly tree: readonly MovingUnit[]
  readonly people: readonly string[]
  /** The zone it keeps as its own, where another one holds above. */
  readonly zone: string | null
}

/** What a move of a unit takes along, before anything is changed. */
export async function previewMove(
  context: Context,
  actor: Actor,
  id: string,
  to: UnitMoveBody,
): Promise<UnitMovePreview> {
  requireAction(actor, 'manage-people')
  const { tree, people, zone } = await planMove(context, context.db, id, to)
  const ids = tree.map((unit) => unit.id)
  const planned = await countPlanned(context.db, ids, to.from)
  const required = await requiredOtherwise(context.db, { id, ...to })
  return { from: to.from, units: ids.length, people: people.length, ...planned, required, zone }
}

/**
 * Moves a unit with all below it under another one (null: to the top) from a day on. Tallies, scopes and rosters of past days
 * go by the tree, so the unit as it was keeps its past and is closed from that day; another one of the same name goes on
 * from it there, with its people by period, what is planned for it and its accounts, all in one transaction. A unit that
 * nothing of the past is left in was in the wrong place, and goes.
 */
export async function moveUnit(context: Context, actor: Actor, id: string, to: UnitMoveBody): Promise<UnitMoved> {
  requireAction(actor, 'manage-people')
  return recorded(context, actor, async (tx, note) => {
    await lockCatalogue(tx)
    await lockTree(tx, id)
    const { tree, people, zone } = await planMove(context, tx, id, to)
    const goesOnAs = await beginAnew(tx, tree, to.parentId, zone)
    await lockSoldiers(tx, people)
    await carryPeople(tx, people, goesOnAs, to.from, note)
    const accounts = await takeAlong(tx, goesOnAs, to.from)
    if (await renameInTerms(tx, goesOnAs)) await bumpRevision(tx)
    for (const unit of tree) await updateUnit(tx, unit.id, { closedFrom: to.from })
    note({
      action: 'unit.moved',
      subject: { kind: 'unit', id: goesOnAs.get(id)! },
      before: { name: tree[0]!.name, parentId: tree[0]!.parentId, unitId: id },
      after: { ...to, units: tree.length, people: people.length, accounts: accounts.length, zone },
    })
    const moved = people.map((soldierId) => ({ soldierId }))
    await settle(tx, await readCatalogue(tx), context.clock(), moved, note)
    await removeMistakes(tx, tree)
    return { id: goesOnAs.get(id)!, people: people.length, units: tree.length }
  })
}

async function planMove(
  context: Context,
  tx: Transaction,
  id: string,
  { parentId, from }: UnitMoveBody,
): Promise<Plan> {
  const all = await readTree(tx, id)
  const top = all[0]
  if (!top) throw notFound('unit')
  const closes = all.find((unit) => unit.closedFrom !== null && (unit === top || unit.closedFrom > from))
  if (closes) {
    throw conflict(
      'unit-closed',
      `${closes.name} is closed from ${closes.closedFrom} on. Open it again under Units, move it, then close what has come of it.`,
    )
  }
  if (parentId === top.parentId) throw invalid('same-place', '/parentId', `${top.name} is there already.`)
  if (parentId !== null) {
    if (await isAtOrBelow(tx, parentId, id)) {
      throw invalid('below-itself', '/parentId', `${top.name} cannot go below itself. Choose a unit outside of it.`)
    }
    await requireOpenAbove(tx, parentId)
  }
  const tree = all.filter((unit) => unit.closedFrom === null)
  const people = await peopleFrom(
    tx,
    tree.map((unit) => unit.id),
    from,
  )
  if (people.length > MOST_PEOPLE) {
    throw conflict('too-many', `${people.length} people are too many for one move. Move the units below it one by one.`)
  }
  const now = (await readTimeZone(tx, id)) ?? context.timeZone
  const there = (parentId === null ? null : await readTimeZone(tx, parentId)) ?? context.timeZone
  return { tree, people, zone: top.timeZone === null && now !== there ? now : null }
}

/** Makes the units that go on from those of the tree. Out: by old unit the new one. */
async function beginAnew(
  tx: Transaction,
  tree: readonly MovingUnit[],
  parentId: string | null,
  zone: string | null,
): Promise<Map<string, string>> {
  const goesOnAs = new Map<string, string>()
  for (const [at, { id, name, kind, timeZone, place, continues, ...unit }] of tree.entries()) {
    const above = at === 0 ? parentId : goesOnAs.get(unit.parentId!)!
    const body = { name, kind, parentId: above, timeZone: at === 0 ? (timeZone ?? zone) : timeZone }
    const made = await insertUnit(tx, body, [id, ...continues])
    if (at > 0) await keepPlace(tx, made, place)
    goesOnAs.set(id, made)
  }
  return goesOnAs
}

async function carryPeople(
  tx: Transaction,
  people: readonly string[],
  goesOnAs: ReadonlyMap<string, string>,
  from: string,
  note: Note,
): Promise<void> {
  const changes = await changesOf(tx, people)
  const carried = people.map((soldierId) => ({ soldierId, ...carryOver(changes.get(soldierId)!, goesOnAs, from) }))
  await renameInChanges(tx, goesOnAs, from)
  await insertChanges(
    tx,
    carried.flatMap(({ soldierId, entered }) => (entered ? [{ soldierId, ...entered }] : [])),
  )
  await replacePeriods(
    tx,
    carried.flatMap(({ soldierId, periods }) => periods.map((period) => ({ soldierId, ...period }))),
  )
  for (const { soldierId, periods } of carried) {
    const before = soldierPeriods(changes.get(soldierId)!)
    note({ action: 'soldier.changed', subject: { kind: 'soldier', id: soldierId }, before, after: periods })
  }
}

/** Takes out the units that nothing of the past is left in, the lowest first. */
async function removeMistakes(tx: Transaction, tree: readonly MovingUnit[]): Promise<void> {
  for (const { id } of [...tree].reverse()) {
    if ((await unitIsNamedBy(tx, id)).length > 0) continue
    await deleteUnit(tx, id)
    await removeFromPasts(tx, id)
  }
}
