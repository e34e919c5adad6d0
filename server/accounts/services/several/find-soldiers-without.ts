import { existingUnits } from '../../../access/db/units.db.ts'
import { unknownUnit } from '../../../access/services/require.ts'
import type { Context } from '../../../context/context.ts'
import { fromCursor, toPage } from '../../../context/cursor.ts'
import { today } from '../../../context/today.ts'
import type { ProposedNames, SoldierWithout, WithoutQuery } from '../../../contract/accounts/several.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { proposeNames } from '../../../domain/access/propose-names.ts'
import { listAccountNames } from '../../db/accounts.db.ts'
import { listSoldiersWithout, readNamesOfSoldiers } from '../../db/soldiers-without.db.ts'
import { requireAdministrator } from '../administration/require-administrator.ts'

/** Who on the roster has no account; who is named as a sponsor or grader first. */
export async function findSoldiersWithout(
  context: Context,
  actor: Actor,
  query: WithoutQuery,
): Promise<{ items: SoldierWithout[]; next: string | null }> {
  requireAdministrator(actor)
  const { unitId, limit } = query
  if (unitId && (await existingUnits(context.db, [unitId])).length === 0) throw unknownUnit()
  const key = fromCursor(query.after, ['number', 'text', 'text', 'uuid'])
  const after = key && {
    named: Number(key[0]) > 0 ? 1 : 0,
    familyName: String(key[1]),
    givenName: String(key[2]),
    id: String(key[3]),
  }
  const page = { limit: limit + 1, after }
  const rows = await listSoldiersWithout(context.db, query, await today(context), page)
  return toPage(
    rows,
    limit,
    ({ isSponsor, isGrader, familyName, givenName, id }) => [Number(isSponsor || isGrader), familyName, givenName, id],
    ({ familyName: _, givenName: __, ...soldier }) => soldier,
  )
}

/** A name to sign in with for each of these soldiers, in their order; stores nothing. Who is not there gets none. */
export async function proposeAccountNames(
  context: Context,
  actor: Actor,
  soldierIds: readonly string[],
): Promise<ProposedNames> {
  requireAdministrator(actor)
  const people = new Map((await readNamesOfSoldiers(context.db, soldierIds)).map((one) => [one.id, one]))
  const there = [...new Set(soldierIds)].flatMap((id) => people.get(id) ?? [])
  const names = proposeNames(there, await listAccountNames(context.db))
  return { items: there.map(({ id }, at) => ({ soldierId: id, name: names[at]! })) }
}
