import { scopeFor } from '../../../access/services/scope-for.ts'
import type { Context } from '../../../context/context.ts'
import type { SoldierExtract } from '../../../contract/soldiers/extracts.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { canExtract } from '../../../domain/access/permissions.ts'
import { notFound } from '../../../errors.ts'
import { recorded } from '../../../record/services/recorded.ts'
import { readExtract } from '../../db/extracts/extracts.db.ts'
import { readPresentIds } from '../../db/merges/merges.db.ts'

/** Everything held about a soldier: for the office, and for the soldier. That it was made is on record. */
export async function makeExtract(context: Context, actor: Actor, asked: string): Promise<SoldierExtract> {
  const id = (await readPresentIds(context.db, [asked])).get(asked) ?? asked
  const scope = await scopeFor(context, actor)
  const extract = canExtract(actor, id) ? await readExtract(context.db, scope, id) : null
  if (extract === null) throw notFound('soldier')
  await recorded(context, actor, async (_, note) => {
    note({ action: 'soldier.extract-made', subject: { kind: 'soldier', id } })
  })
  return { madeAt: context.clock().toISOString(), ...extract }
}
