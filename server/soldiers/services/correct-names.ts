import { requireAction } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { todayOfSoldier } from '../../context/today.ts'
import type { NamesBody, Soldier } from '../../contract/soldiers/soldiers.ts'
import { isDuplicate } from '../../db/database-errors.ts'
import { lockSoldiers } from '../../db/locks.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'
import { readSoldier } from '../db/roster.db.ts'
import { updateNames } from '../db/soldiers.db.ts'
import { requireNotRemoved } from './removals/require-not-removed.ts'
import { rosterNumberUsed } from './roster-number-used.ts'

/** Corrects roster number and names. A number that is somebody else's is a conflict. */
export async function correctNames(
  context: Context,
  actor: Actor,
  id: string,
  { reason, ...names }: NamesBody,
): Promise<Soldier> {
  requireAction(actor, 'manage-people')
  const scope = await scopeFor(context, actor)
  const day = await todayOfSoldier(context, id)
  try {
    return await recorded(context, actor, async (tx, note) => {
      await lockSoldiers(tx, [id])
      const before = await readSoldier(tx, scope, id, day)
      if (!before) throw notFound('soldier')
      await requireNotRemoved(tx, [id])
      await updateNames(tx, id, names)
      const { rosterNumber, familyName, givenName } = before
      note({
        action: 'soldier.names-corrected',
        subject: { kind: 'soldier', id },
        before: { rosterNumber, familyName, givenName },
        after: names,
        reason,
      })
      return { ...before, ...names }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw rosterNumberUsed(names.rosterNumber)
  }
}
