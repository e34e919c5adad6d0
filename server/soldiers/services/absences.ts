import { requireAction, requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import { today } from '../../context/today.ts'
import type { Absence, AbsenceBody, AbsentSoldier } from '../../contract/soldiers/absences.ts'
import type { Transaction } from '../../db/client.ts'
import { isOverlap } from '../../db/database-errors.ts'
import { shareSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict, notFound } from '../../errors.ts'
import { type Note, recorded } from '../../record/services/recorded.ts'
import {
  deleteAbsence,
  insertAbsence,
  listAbsences,
  listAbsent,
  lockAbsence,
  updateAbsence,
} from '../db/absences.db.ts'
import { soldiersInScope } from '../db/roster.db.ts'
import { requireNotRemoved } from './removals/require-not-removed.ts'

/** A soldier cannot be called on for some days. Nothing that was tested hangs on it. */
export async function addAbsence(context: Context, actor: Actor, soldierId: string, body: AbsenceBody) {
  const scope = await scopeFor(context, actor)
  return store(context, actor, async (tx, note) => {
    const isThere = (await shareSoldiers(tx, [soldierId])).length > 0
    if (!isThere || (await soldiersInScope(tx, scope, [soldierId])).length === 0) throw notFound('soldier')
    await requireNotRemoved(tx, [soldierId])
    const id = await insertAbsence(tx, soldierId, body)
    note({ action: 'absence.added', subject: { kind: 'soldier', id: soldierId }, after: body })
    return { id }
  })
}

/** Changes or ends an absence. */
export async function changeAbsence(context: Context, actor: Actor, id: string, body: AbsenceBody) {
  return store(context, actor, async (tx, note) => {
    const { soldierId, ...before } = await requireAbsence(context, actor, tx, id)
    await updateAbsence(tx, id, body)
    note({ action: 'absence.changed', subject: { kind: 'soldier', id: soldierId }, before, after: body })
    return { id }
  })
}

/** Takes back an absence that did not happen. */
export async function removeAbsence(context: Context, actor: Actor, id: string): Promise<void> {
  await store(context, actor, async (tx, note) => {
    const { soldierId, ...before } = await requireAbsence(context, actor, tx, id)
    await deleteAbsence(tx, id)
    note({ action: 'absence.removed', subject: { kind: 'soldier', id: soldierId }, before })
    return { id }
  })
}

async function requireAbsence(context: Context, actor: Actor, tx: Transaction, id: string): Promise<Absence> {
  const absence = await lockAbsence(tx, await scopeFor(context, actor), id)
  if (!absence) throw notFound('absence')
  return absence
}

async function store(
  context: Context,
  actor: Actor,
  work: (tx: Transaction, note: Note) => Promise<{ id: string }>,
): Promise<{ id: string }> {
  requireAction(actor, 'manage-people')
  try {
    return await recorded(context, actor, work)
  } catch (error) {
    if (!isOverlap(error)) throw error
    throw conflict('period-overlaps', 'The soldier is absent then already. Change that absence, or give other days.')
  }
}

/** A soldier's absences, the latest first. */
export async function findAbsences(
  context: Context,
  actor: Actor,
  soldierId: string,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: Absence[]; next: string | null }> {
  const scope = await scopeFor(context, actor)
  if ((await soldiersInScope(context.db, scope, [soldierId])).length === 0) throw notFound('soldier')
  const key = fromCursor(query.after, ['day'])
  const page = { limit: query.limit + 1, after: key && String(key[0]) }
  return toPage(
    await listAbsences(context.db, soldierId, page),
    query.limit,
    ({ from }) => [from],
    (absence) => absence,
  )
}

/** Who of a unit is absent on a day, by roster number. */
export async function findAbsent(
  context: Context,
  actor: Actor,
  query: { limit: number; after?: string | undefined; on?: string | undefined; unitId?: string | undefined },
): Promise<{ items: AbsentSoldier[]; next: string | null }> {
  const scope = await scopeFor(context, actor)
  await requireUnitInScope(context, scope, query.unitId)
  const day = query.on ?? (await today(context, query.unitId))
  const key = fromCursor(query.after, ['text'])
  const page = { limit: query.limit + 1, after: key && String(key[0]) }
  return toPage(
    await listAbsent(context.db, scope, { day, unitId: query.unitId }, page),
    query.limit,
    ({ rosterNumber }) => [rosterNumber],
    (absent) => absent,
  )
}
