import { rosterScopeFor, scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { Found } from '../../contract/search/search.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { searchEvents, searchSoldiers } from '../db/search.db.ts'

const SOLDIERS = 12
const OTHERS = 5

/**
 * What begins with the words asked for, of what this account may see: soldiers by name or roster number, then ceremonies,
 * test days and standards by title. A few of each; who wants more types more.
 */
export async function search(context: Context, actor: Actor, q: string): Promise<{ items: Found[]; next: null }> {
  if (!/[\p{L}\p{N}]/u.test(q)) return { items: [], next: null }
  const [roster, scope, day] = await Promise.all([
    rosterScopeFor(context, actor),
    scopeFor(context, actor),
    today(context),
  ])
  const [soldiers, others] = await Promise.all([
    searchSoldiers(context.db, roster, q, day, SOLDIERS),
    searchEvents(context.db, scope, q, day, OTHERS),
  ])
  return { items: [...soldiers, ...others], next: null }
}
