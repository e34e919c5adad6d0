import { requireAction } from '../../../access/services/require.ts'
import { requireImpartial } from '../../../access/services/require-impartial.ts'
import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { todayOfSoldier } from '../../../context/today.ts'
import type { MergeBody, MergePreview } from '../../../contract/soldiers/merges.ts'
import type { Soldier } from '../../../contract/soldiers/soldiers.ts'
import type { Transaction } from '../../../db/client.ts'
import { isDuplicate, isOverlap } from '../../../db/database-errors.ts'
import { lockCatalogue, lockSoldiers } from '../../../db/locks.db.ts'
import { inTransaction } from '../../../db/transaction.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { AppError, conflict, invalid, notFound } from '../../../errors.ts'
import { type Note, noteFor, recorded } from '../../../record/services/recorded.ts'
import { readClashes, readSameTimes } from '../../db/merges/merge-clashes.db.ts'
import { insertMerge } from '../../db/merges/merges.db.ts'
import { readSoldier } from '../../db/roster.db.ts'
import { requireNotRemoved } from '../removals/require-not-removed.ts'
import { formatRows } from './format-rows.ts'
import { joinEntries } from './join-entries.ts'
import { obstaclesOf } from './obstacles.ts'

/** Two entries of one soldier, locked while standards stay as they are. */
async function lockEntries(tx: Transaction, context: Context, actor: Actor, keptId: string, awayId: string) {
  if (keptId === awayId) throw invalid('same-entry', '/awayId', 'This is the same entry; name the other one.')
  await lockCatalogue(tx)
  await lockSoldiers(tx, [keptId, awayId])
  await requireNotRemoved(tx, [keptId, awayId])
  await requireImpartial(tx, actor, [keptId, awayId])
  const scope = await scopeFor(context, actor)
  const day = await todayOfSoldier(context, keptId)
  const [kept, away] = [await readSoldier(tx, scope, keptId, day), await readSoldier(tx, scope, awayId, day)]
  if (!kept) throw notFound('soldier')
  if (!away) throw invalid('unknown-person', '/awayId', 'Nobody on the roster has this id.')
  return { kept, away, obstacles: obstaclesOf(await readClashes(tx, keptId, awayId)) }
}

/**
 * Merges two entries of one soldier: everything of the one given up is the kept one's, and whatever hangs on it is judged
 * anew. What no one person can have (each other's sponsor, candidate and grader of one test) is a conflict.
 */
export async function mergeSoldiers(
  context: Context,
  actor: Actor,
  keptId: string,
  { awayId, reason }: MergeBody,
): Promise<{ id: string }> {
  requireAction(actor, 'manage-people')
  return clashesSaid(() =>
    recorded(context, actor, async (tx, note) => {
      const { away, obstacles } = await lockEntries(tx, context, actor, keptId, awayId)
      if (obstacles[0]) throw conflict(obstacles[0].rule, obstacles.map(({ detail }) => detail).join(' '))
      const now = context.clock()
      const { periods, ...traces } = await joinEntries(
        tx,
        await context.catalogue.current(tx),
        now,
        keptId,
        awayId,
        note,
      )
      const id = await insertMerge(tx, { keptId, awayId, at: now, byId: actor.accountId, reason }, traces)
      const after = { merge: id, away: awayId, rosterNumber: away.rosterNumber, periods }
      note({ action: 'soldier.merged', subject: { kind: 'soldier', id: keptId }, after, reason })
      return { id }
    }),
  )
}

/** Carries an answer out of a transaction that is to leave nothing behind. */
class Undone extends Error {
  readonly preview: MergePreview
  constructor(preview: MergePreview) {
    super('The preview is taken back.')
    this.preview = preview
  }
}

/** What merging would do: it is done, looked at, and taken back. */
export async function previewMerge(
  context: Context,
  actor: Actor,
  keptId: string,
  awayId: string,
): Promise<MergePreview> {
  requireAction(actor, 'manage-people')
  try {
    return await clashesSaid(() =>
      inTransaction(context.db, async (tx) => {
        const { kept, away, obstacles } = await lockEntries(tx, context, actor, keptId, awayId)
        const sameTimes = await readSameTimes(tx, keptId, awayId)
        const nothing = { moves: [], putAside: [], periods: [], judged: [] }
        if (obstacles.length > 0) return { kept, away, obstacles, sameTimes, ...nothing }
        throw new Undone(
          await tryOut(
            tx,
            context,
            noteFor(actor, () => {}),
            { kept, away, sameTimes },
          ),
        )
      }),
    )
  } catch (error) {
    if (error instanceof Undone) return error.preview
    throw error
  }
}

async function tryOut(
  tx: Transaction,
  context: Context,
  note: Note,
  entries: { kept: Soldier; away: Soldier; sameTimes: MergePreview['sameTimes'] },
): Promise<MergePreview> {
  const catalogue = await context.catalogue.current(tx)
  const { kept, away } = entries
  const traces = await joinEntries(tx, catalogue, context.clock(), kept.id, away.id, note)
  return {
    ...entries,
    obstacles: [],
    moves: traces.moved.map(({ table, column, keys }) => ({ what: formatRows(table, column), count: keys.length })),
    putAside: counted(traces.putAside.map(({ table }) => table)).map(([table, count]) => ({
      what: table === 'soldier_change' ? 'entries of unit, grade and arms' : formatRows(table),
      count,
    })),
    periods: traces.periods.map(({ from, through, unitId, grade }) => ({ from, through, unitId, grade })),
    judged: counted(traces.judged.map(({ state }) => state)).map(([state, count]) => ({ state, count })),
  }
}

const counted = (words: readonly string[]): [string, number][] => [
  ...words.reduce((counts, word) => counts.set(word, (counts.get(word) ?? 0) + 1), new Map<string, number>()),
]

/** What the database will not have twice, of tables that have no check of their own. */
async function clashesSaid<Result>(work: () => Promise<Result>): Promise<Result> {
  try {
    return await work()
  } catch (error) {
    if (error instanceof AppError || !(isDuplicate(error) || isOverlap(error))) throw error
    throw conflict('merge-clashes', 'Both have the same for the same time. Remove it from one of the two first.')
  }
}
