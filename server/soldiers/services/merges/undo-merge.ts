import { requireAction } from '../../../access/services/require.ts'
import { requireImpartial } from '../../../access/services/require-impartial.ts'
import type { Context } from '../../../context/context.ts'
import { isDuplicate, isOverlap } from '../../../db/database-errors.ts'
import { lockCatalogue, lockSoldiers } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { AppError, conflict, notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { closeMerge, lockMerge } from '../../db/merges/merges.db.ts'
import { requireNotRemoved } from '../removals/require-not-removed.ts'
import { partEntries } from './join-entries.ts'

/** Takes two merged entries apart again: each has what it had, and sheets stand as they stood. */
export async function undoMerge(
  context: Context,
  actor: Actor,
  id: string,
  { reason }: { reason: string },
): Promise<{ id: string }> {
  requireAction(actor, 'manage-people')
  try {
    return await recorded(context, actor, async (tx, note) => {
      await lockCatalogue(tx)
      const merge = await lockMerge(tx, id)
      if (!merge) throw notFound('merge')
      if (merge.later) {
        throw conflict('later-merge', 'This soldier was merged again since. Undo the later merge first.')
      }
      const { keptId, awayId } = merge
      await lockSoldiers(tx, [keptId])
      await requireNotRemoved(tx, [keptId])
      await requireImpartial(tx, actor, [keptId])
      await partEntries(tx, await context.catalogue.current(tx), context.clock(), merge, note)
      await closeMerge(tx, id, { undoneAt: context.clock(), undoneById: actor.accountId, undoReason: reason })
      const after = { merge: id, away: awayId }
      note({ action: 'soldier.merge-undone', subject: { kind: 'soldier', id: keptId }, after, reason })
      return { id }
    })
  } catch (error) {
    if (error instanceof AppError && error.rule === 'before-joining') {
      throw conflict(
        'undo-before-joining',
        'An entry made or corrected since the merge lies before the kept soldier joined by their own entries. Correct it first.',
      )
    }
    if (!isDuplicate(error) && !isOverlap(error)) throw error
    throw conflict(
      'undo-clashes',
      'What the other entry had is taken since: its roster number, or the same for the same time. Free it first.',
    )
  }
}
