import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import { todayOfSoldier } from '../../../context/today.ts'
import type { Soldier } from '../../../contract/soldiers/soldiers.ts'
import type { Transaction } from '../../../db/client.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { namePattern } from '../../../domain/people/name-pattern.ts'
import { notFound, type Obstacle } from '../../../errors.ts'
import { findImportsNaming, readAccountOf, readRemovals } from '../../db/removals/removals.db.ts'
import { readSoldier } from '../../db/roster.db.ts'

/** A soldier who may be removed, with what stands in the way; the first is the one to be told. */
export async function loadRemoval(tx: Transaction, context: Context, actor: Actor, id: string) {
  const soldier = await readSoldier(tx, await scopeFor(context, actor), id, await todayOfSoldier(context, id))
  if (!soldier) throw notFound('soldier')
  const account = await readAccountOf(tx, id)
  const imports = await findImportsNaming(tx, namePattern([soldier.rosterNumber])!)
  const obstacles = [
    ...((await readRemovals(tx, [id])).size > 0
      ? [{ rule: 'soldier-removed' as const, detail: 'The personal data of this soldier is removed already.' }]
      : []),
    ...whoStays(soldier, actor),
    ...(account?.roles.includes('administrator')
      ? [
          {
            rule: 'is-administrator' as const,
            detail: 'Their account is an administrator’s. Have another one take that role first.',
          },
        ]
      : []),
    ...(imports.some(({ busy }) => busy)
      ? [
          {
            rule: 'import-running' as const,
            detail: 'A file that names them is being imported. Wait until that is done.',
          },
        ]
      : []),
  ]
  return { soldier, account, imports: imports.map((one) => one.id), obstacles }
}

function whoStays({ id, left }: Soldier, actor: Actor): Obstacle[] {
  if (actor.soldierId === id) {
    return [{ rule: 'own-data' as const, detail: 'This is you. Another account of the office removes your data.' }]
  }
  return left === null
    ? [
        {
          rule: 'not-left' as const,
          detail: 'They are on strength. Enter on the page of the soldier when they leave, first.',
        },
      ]
    : []
}
