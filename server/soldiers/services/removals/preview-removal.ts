import { requireAction } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import type { RemovalPreview } from '../../../contract/soldiers/removals.ts'
import { inTransaction } from '../../../db/transaction.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { namePattern } from '../../../domain/people/name-pattern.ts'
import { countKept, countWhole, countWords, findEntries, findMentions } from '../../db/removals/removals.db.ts'
import { loadRemoval } from './load-removal.ts'

/** What removing the personal data of a soldier would do, and where else they may be named. Changes nothing. */
export async function previewRemoval(context: Context, actor: Actor, id: string): Promise<RemovalPreview> {
  requireAction(actor, 'manage-people')
  return inTransaction(context.db, async (tx) => {
    const { soldier, account, imports, obstacles } = await loadRemoval(tx, context, actor, id)
    const { who, what } = await findEntries(tx, id)
    const goes = [
      ...(await countWords(tx, id)),
      ...(await countWhole(tx, id)),
      { what: 'files waiting to be imported that have their number', count: imports.length },
    ]
    const pattern = namePattern([soldier.rosterNumber, soldier.familyName])
    return {
      soldier,
      obstacles,
      goes: goes.filter(({ count }) => count > 0),
      stays: (await countKept(tx, id)).filter(({ count }) => count > 0),
      entries: { who: who.length, what: what.length },
      account: account?.name ?? null,
      mentions: (await findMentions(tx, id, pattern!)).map((mention) => ({ ...mention, places: [...mention.places] })),
    }
  })
}
