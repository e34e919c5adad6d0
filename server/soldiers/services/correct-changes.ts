import { requireAction } from '../../access/services/require.ts'
import { requireImpartial } from '../../access/services/require-impartial.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import { noteNew } from '../../arms-and-grades/services/note-new.ts'
import { settle } from '../../assessment/services/settle.ts'
import type { Context } from '../../context/context.ts'
import { fromCursor, toPage } from '../../context/cursor.ts'
import type { ChangeCorrectionBody, ReasonBody, Soldier, SoldierChange } from '../../contract/soldiers/soldiers.ts'
import type { Transaction } from '../../db/client.ts'
import { lockSoldiers, shareCatalogue } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { type SoldierChange as Change, soldierPeriods } from '../../domain/people/soldier-periods.ts'
import { conflict, notFound } from '../../errors.ts'
import { type Note, recorded } from '../../record/services/recorded.ts'
import { readSoldier, soldiersInScope } from '../db/roster.db.ts'
import { deleteChange, readChanges, updateChange } from '../db/soldiers.db.ts'
import { requireNotRemoved } from './removals/require-not-removed.ts'
import { renewPeriods, requireUnit } from './renew-periods.ts'

interface Correction {
  readonly action: string
  readonly reason: string
  readonly store: (tx: Transaction, changes: readonly Change[], note: Note) => Promise<void>
}

/** Replaces an entered change by what it should have said; everything that depends on it follows. */
export async function correctChange(
  context: Context,
  actor: Actor,
  soldierId: string,
  changeId: number,
  { reason, ...body }: ChangeCorrectionBody,
): Promise<Soldier> {
  const store = async (tx: Transaction, _changes: readonly Change[], note: Note) => {
    await noteNew(tx, note, { grades: [body.grade], arms: body.arms })
    if (body.unitId) await requireUnit(tx, body.unitId)
    await updateChange(tx, changeId, body)
  }
  return correct(context, actor, soldierId, changeId, { action: 'soldier.change-corrected', reason, store })
}

/** Takes back a change that never was. The only one left is how the soldier joined, and stays. */
export async function removeChange(
  context: Context,
  actor: Actor,
  soldierId: string,
  changeId: number,
  { reason }: ReasonBody,
): Promise<Soldier> {
  const store = async (tx: Transaction, changes: readonly Change[]) => {
    if (changes.length === 1) {
      throw conflict('only-change', 'This says how the soldier joined and is all there is. Correct it instead.')
    }
    await deleteChange(tx, changeId)
  }
  return correct(context, actor, soldierId, changeId, { action: 'soldier.change-removed', reason, store })
}

async function correct(
  context: Context,
  actor: Actor,
  soldierId: string,
  changeId: number,
  { action, reason, store }: Correction,
): Promise<Soldier> {
  requireAction(actor, 'manage-people')
  const scope = await scopeFor(context, actor)
  return recorded(context, actor, async (tx, note) => {
    await shareCatalogue(tx)
    if ((await lockSoldiers(tx, [soldierId])).length === 0) throw notFound('soldier')
    await requireNotRemoved(tx, [soldierId])
    await requireImpartial(tx, actor, [soldierId])
    const changes = await readChanges(tx, soldierId)
    const wrong = changes.find(({ entry }) => entry === changeId)
    if (!wrong) throw notFound('change of this soldier')
    await store(tx, changes, note)
    const after = await renewPeriods(tx, soldierId)
    const before = { change: wrong, periods: soldierPeriods(changes) }
    note({ action, subject: { kind: 'soldier', id: soldierId }, before, after: { periods: after }, reason })
    await settle(tx, await context.catalogue.current(tx), context.clock(), [{ soldierId }], note)
    return (await readSoldier(tx, scope, soldierId, wrong.from))!
  })
}

/** What was entered about a soldier's unit, grade, arms and strength, in order. */
export async function findChanges(
  context: Context,
  actor: Actor,
  soldierId: string,
  query: { limit: number; after?: string | undefined },
): Promise<{ items: SoldierChange[]; next: string | null }> {
  const scope = await scopeFor(context, actor)
  if ((await soldiersInScope(context.db, scope, [soldierId])).length === 0) throw notFound('soldier')
  const key = fromCursor(query.after, ['day', 'number'])
  const changes = (await readChanges(context.db, soldierId))
    .sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : a.entry - b.entry))
    .filter(({ from, entry }) => !key || from > String(key[0]) || (from === key[0] && entry > Number(key[1])))
  return toPage(
    changes,
    query.limit,
    ({ from, entry }) => [from, entry],
    ({ entry, arms, left, ...change }) => ({
      id: entry,
      ...change,
      arms: arms && [...arms],
      left: left as SoldierChange['left'],
    }),
  )
}
