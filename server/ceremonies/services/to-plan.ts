import { readTimeZone } from '../../access/db/units.db.ts'
import type { Context } from '../../context/context.ts'
import type { CeremonyBody } from '../../contract/ceremonies/ceremonies.ts'
import type { Transaction } from '../../db/client.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import type { StoredPlan } from '../db/ceremony-writes.db.ts'

/** A plan as it is stored: who is told no time to report reports at the start; days are those of the unit's zone. */
export async function toPlan(
  context: Context,
  tx: Transaction,
  body: Omit<CeremonyBody, 'posts' | 'alternates'>,
): Promise<StoredPlan> {
  const zone = (await readTimeZone(tx, body.unitId)) ?? context.timeZone
  return {
    ...body,
    reportsAt: body.reportsAt ?? body.startsAt,
    day: dayInZone(body.startsAt, zone),
    rehearsals: body.rehearsals.map((rehearsal) => ({ ...rehearsal, day: dayInZone(rehearsal.startsAt, zone) })),
  }
}
