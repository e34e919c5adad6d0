import { lockSisters, placeUnits } from '../../access/db/units.db.ts'
import { requireAction } from '../../access/services/require.ts'
import type { Context } from '../../context/context.ts'
import type { UnitOrderBody } from '../../contract/soldiers/unit-moves.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { conflict } from '../../errors.ts'
import { recorded } from '../../record/services/recorded.ts'

/** Puts the units right below one in an order of their own, for every list and picker. It must name each of them once. */
export async function orderUnits(
  context: Context,
  actor: Actor,
  { parentId, ids }: UnitOrderBody,
): Promise<UnitOrderBody> {
  requireAction(actor, 'manage-people')
  return recorded(context, actor, async (tx, note) => {
    const sisters = await lockSisters(tx, parentId)
    const isSame = sisters.length === ids.length && sisters.every(({ id }) => ids.includes(id))
    if (!isSame) {
      throw conflict(
        'other-units',
        'There are other units by now than were put in order. Read them again, then order them.',
      )
    }
    await placeUnits(tx, ids)
    const before = { parentId, units: sisters.map(({ name }) => name) }
    const after = { parentId, units: ids.map((id) => sisters.find((one) => one.id === id)!.name) }
    note({ action: 'unit.ordered', subject: { kind: 'unit', id: parentId }, before, after })
    return { parentId, ids }
  })
}
