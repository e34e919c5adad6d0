import { requireAction, requireUnitInScope } from '../../access/services/require.ts'
import { requireImpartial } from '../../access/services/require-impartial.ts'
import { rosterScopeFor, scopeFor } from '../../access/services/scope-for.ts'
import { noteNew } from '../../arms-and-grades/services/note-new.ts'
import { settle } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { today, todayOfSoldier } from '../../context/today.ts'
import type { Soldier, SoldierBody, SoldierChangeBody, SoldierDetail } from '../../contract/soldiers/soldiers.ts'
import { isDuplicate } from '../../db/database-errors.ts'
import { lockSoldiers, shareCatalogue } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { soldierPeriods } from '../../domain/people/soldier-periods.ts'
import { notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { readPresentIds } from '../db/merges/merges.db.ts'
import { readRemovals } from '../db/removals/removals.db.ts'
import { countSoldiers, listSoldiers, type RosterFilter, readSoldier, type StrengthState } from '../db/roster.db.ts'
import { readSoldierLists } from '../db/soldier-detail.db.ts'
import { insertChange, insertSoldier, readChanges } from '../db/soldiers.db.ts'
import { requireNotRemoved } from './removals/require-not-removed.ts'
import { renewPeriods, requireUnit } from './renew-periods.ts'
import { rosterNumberUsed } from './roster-number-used.ts'

/** Puts a soldier on the roster from a day on. A used roster number is a conflict. */
export async function createSoldier(context: Context, actor: Actor, body: SoldierBody): Promise<{ id: string }> {
  requireAction(actor, 'manage-people')
  const { grade, arms, unitId, from } = body
  try {
    return await recorded(context, actor, async (tx, note) => {
      await requireUnit(tx, unitId)
      await noteNew(tx, note, { grades: [grade], arms })
      const id = await insertSoldier(tx, body)
      await insertChange(tx, id, { from, grade, arms, unitId })
      await renewPeriods(tx, id)
      note({ action: 'soldier.created', subject: { kind: 'soldier', id }, after: { from, grade, arms, unitId } })
      return { id }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw rosterNumberUsed(body.rosterNumber)
  }
}

/** Enters what changes about a soldier from a day on, in the past as well; everything that depends on it follows. */
export async function changeSoldier(
  context: Context,
  actor: Actor,
  id: string,
  change: SoldierChangeBody,
): Promise<Soldier> {
  requireAction(actor, 'manage-people')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    await shareCatalogue(tx)
    if ((await lockSoldiers(tx, [id])).length === 0) throw notFound('soldier')
    await requireNotRemoved(tx, [id])
    await requireImpartial(tx, actor, [id])
    if (change.unitId) await requireUnit(tx, change.unitId)
    await noteNew(tx, note, { grades: [change.grade], arms: change.arms })
    const before = soldierPeriods(await readChanges(tx, id))
    await insertChange(tx, id, change)
    const after = await renewPeriods(tx, id)
    note({ action: 'soldier.changed', subject: { kind: 'soldier', id }, before, after })
    await settle(tx, await context.catalogue.current(tx), context.clock(), [{ soldierId: id }], note)
    return (await readSoldier(tx, scope, id, change.from))!
  })
}

interface RosterQuery {
  asOf?: string | undefined
  unitId?: string | undefined
  q?: string | undefined
  grade?: string | undefined
  arm?: string | undefined
  strength?: StrengthState | undefined
}

async function rosterAsked(
  context: Context,
  actor: Actor,
  { asOf, unitId, q, grade, arm, strength }: RosterQuery,
): Promise<{ scope: Scope; filter: RosterFilter }> {
  const scope = await rosterScopeFor(context, actor)
  await requireUnitInScope(context, scope, unitId)
  const day = asOf ?? (await today(context, unitId))
  return { scope, filter: { day, unitId, search: q, grade, arm, strength } }
}

/** How many soldiers the roster has as of a day. */
export async function countRoster(context: Context, actor: Actor, query: RosterQuery): Promise<{ count: number }> {
  const { scope, filter } = await rosterAsked(context, actor, query)
  return { count: await countSoldiers(context.db, scope, filter) }
}

/** The roster as of a day. */
export async function findSoldiers(
  context: Context,
  actor: Actor,
  query: RosterQuery & { limit: number; after?: string | undefined },
): Promise<{ items: Soldier[]; next: string | null }> {
  const { scope, filter } = await rosterAsked(context, actor, query)
  const key = fromCursor(query.after, ['text'])
  const rows = await listSoldiers(context.db, scope, filter, { limit: query.limit + 1, after: key && String(key[0]) })
  return toPage(
    rows,
    query.limit,
    ({ rosterNumber }) => [rosterNumber],
    (soldier) => soldier,
  )
}

/** One soldier as of a day, with everything about them that is not on a sheet. An entry given up leads to the kept one. */
export async function getSoldier(context: Context, actor: Actor, asked: string, asOf?: string): Promise<SoldierDetail> {
  const scope = await scopeFor(context, actor)
  const id = (await readPresentIds(context.db, [asked])).get(asked) ?? asked
  const day = asOf ?? (await todayOfSoldier(context, id))
  const soldier = await readSoldier(context.db, scope, id, day)
  if (!soldier) throw notFound('soldier')
  const removedAt = (await readRemovals(context.db, [id])).get(id)?.toISOString() ?? null
  return { ...soldier, removedAt, ...(await readSoldierLists(context.db, scope, id, day)) }
}
