import { readTimeZone } from '../../access/db/units.db.ts'
import type { Context } from '../../context/context.ts'
import type { Transaction } from '../../db/client.ts'

/** The zone in which clock times of a unit's test days are meant. */
export async function zoneOfUnit(context: Context, tx: Transaction, unitId: string): Promise<string> {
  return (await readTimeZone(tx, unitId)) ?? context.timeZone
}
