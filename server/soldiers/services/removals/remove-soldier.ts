import { requireAction } from '../../../access/services/require.ts'
import { requireImpartial } from '../../../access/services/require-impartial.ts'
import { lockAccounts } from '../../../accounts/db/account-changes.db.ts'
import type { Context } from '../../../context/context.ts'
import type { RemovalBody, Removed } from '../../../contract/soldiers/removals.ts'
import { isDuplicate } from '../../../db/database-errors.ts'
import { lockSoldiers, shareCatalogue } from '../../../db/locks.db.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { pseudonym } from '../../../domain/people/pseudonym.ts'
import { asRanges } from '../../../domain/record/as-ranges.ts'
import { conflict, invalid, notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import {
  closeAccount,
  deleteImports,
  deleteWhole,
  emptyMerges,
  findEntries,
  insertRemoval,
  replaceNames,
  takeOutWords,
} from '../../db/removals/removals.db.ts'
import { loadRemoval } from './load-removal.ts'

/**
 * Removes the personal data of a soldier who has left, for good: number and names are replaced, words about them taken out,
 * their account closed, entries of the record about them emptied. Marks, days and figures stay as they are.
 */
export async function removeSoldier(
  context: Context,
  actor: Actor,
  id: string,
  { reason, confirmation }: RemovalBody,
): Promise<Removed> {
  requireAction(actor, 'manage-people')
  try {
    return await recorded(context, actor, async (tx, note) => {
      await lockAccounts(tx)
      await shareCatalogue(tx)
      if ((await lockSoldiers(tx, [id])).length === 0) throw notFound('soldier')
      await requireImpartial(tx, actor, [id])
      const { soldier, account, imports, obstacles } = await loadRemoval(tx, context, actor, id)
      if (obstacles[0]) throw conflict(obstacles[0].rule, obstacles[0].detail)
      if (confirmation.trim() !== soldier.rosterNumber) {
        throw invalid('other-number', '/confirmation', 'This is not their roster number. Type it as it stands above.')
      }
      const at = context.clock()
      const number = await insertRemoval(tx, { soldierId: id, at, byId: actor.accountId })
      const names = pseudonym(number)
      await deleteImports(tx, imports)
      const { who, what } = await findEntries(tx, id)
      await takeOutWords(tx, id)
      await deleteWhole(tx, id)
      await emptyMerges(tx, id)
      await replaceNames(tx, id, names)
      if (account) await closeAccount(tx, account.id, names.rosterNumber, at)
      const after = { rosterNumber: names.rosterNumber, emptied: { who: asRanges(who), what: asRanges(what) } }
      note({ action: 'soldier.removed', subject: { kind: 'soldier', id }, after, reason })
      return { id, rosterNumber: names.rosterNumber, at: at.toISOString() }
    })
  } catch (error) {
    if (!isDuplicate(error)) throw error
    throw conflict('number-taken', 'The number they would go by is taken. Try again; another one is used then.')
  }
}
