import {
  deleteUnit,
  existingUnits,
  insertUnit,
  listUnits,
  lockUnit,
  shareUnit,
  unitIsNamedBy,
  unitIsNeededFrom,
  updateUnit,
} from '../../access/db/units.db.ts'
import { formatClosed, requireAction } from '../../access/services/require.ts'
import { rosterScopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { Unit, UnitBody, UnitChangeBody } from '../../contract/soldiers/soldiers.ts'
import type { Transaction } from '../../db/client.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict, invalid, notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { requireLevel } from './levels.ts'

/** Adds a unit to the tree. Out: its id. An unknown unit above is invalid. */
export async function createUnit(context: Context, actor: Actor, body: UnitBody): Promise<{ id: string }> {
  requireAction(actor, 'manage-people')
  return recorded(context, actor, async (tx, note) => {
    if (body.parentId !== null) await requireOpenAbove(tx, body.parentId)
    await requireLevel(tx, body.kind)
    const id = await insertUnit(tx, body)
    note({ action: 'unit.created', subject: { kind: 'unit', id }, after: body })
    return { id }
  })
}

/** Renames a unit, says which zone or level is its own, or closes it. Days and sheets that are on record stay as they are. */
export async function changeUnit(
  context: Context,
  actor: Actor,
  id: string,
  change: UnitChangeBody,
): Promise<{ id: string }> {
  requireAction(actor, 'manage-people')
  return recorded(context, actor, async (tx, note) => {
    const before = await lockUnit(tx, id)
    if (before === null) throw notFound('unit')
    if (change.kind !== undefined) await requireLevel(tx, change.kind)
    if (change.closedFrom) await requireNotNeeded(tx, id, before.name, change.closedFrom)
    else if (change.closedFrom === null && before.parentId !== null) await requireOpenAbove(tx, before.parentId)
    await updateUnit(tx, id, change)
    note({ action: 'unit.changed', subject: { kind: 'unit', id }, before, after: { ...before, ...change } })
    return { id }
  })
}

async function requireNotNeeded(tx: Transaction, id: string, name: string, from: string): Promise<void> {
  const needed = await unitIsNeededFrom(tx, id, from)
  if (needed.length === 0) return
  throw conflict(
    'unit-needed',
    `${name} cannot close on ${from}; on that day or later there are: ${needed.join(', ')}. Move or end them first, or choose a later day.`,
  )
}

/** Refuses a unit to be below that is not there, or is closed; it stays open until the transaction ends. */
export async function requireOpenAbove(tx: Transaction, parentId: string): Promise<void> {
  if ((await existingUnits(tx, [parentId])).length === 0) {
    throw invalid('unknown-unit', '/parentId', 'There is no such unit above; create it first or give null for the top.')
  }
  const closed = await shareUnit(tx, parentId)
  if (closed) throw invalid('unit-closed', '/parentId', formatClosed(closed))
}

/** Takes a unit out of the tree that nothing names: one made by mistake. Any other is part of what happened, and stays. */
export async function removeUnit(context: Context, actor: Actor, id: string): Promise<void> {
  requireAction(actor, 'manage-people')
  await recorded(context, actor, async (tx, note) => {
    const before = await lockUnit(tx, id)
    if (before === null) throw notFound('unit')
    const named = await unitIsNamedBy(tx, id)
    if (named.length > 0) {
      throw conflict(
        'unit-in-use',
        `${before.name} stays: it has ${named.join(', ')}. Rename it, or move them first where nobody ever served in it.`,
      )
    }
    await deleteUnit(tx, id)
    note({ action: 'unit.removed', subject: { kind: 'unit', id }, before })
  })
}

/** The units, by name. */
export async function findUnits(
  context: Context,
  actor: Actor,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: Unit[]; next: string | null }> {
  const key = fromCursor(query.after, ['text', 'uuid'])
  const after = key && { name: String(key[0]), id: String(key[1]) }
  const rows = await listUnits(context.db, await rosterScopeFor(context, actor), context.timeZone, {
    limit: query.limit + 1,
    after,
  })
  return toPage(
    rows,
    query.limit,
    ({ name, id }) => [name, id],
    (unit) => unit,
  )
}
