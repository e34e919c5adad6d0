import { readSoldierTimeZone, readTimeZone, readTopTimeZone } from '../../../access/db/units.db.ts'
import type { Context } from '../../../context/context.ts'
import type { Session } from '../../../contract/accounts/session.ts'
import type { Actor } from '../../../domain/access/actor.ts'
import { dayInZone } from '../../../domain/calendar/day-in-zone.ts'
import { readFactorReset } from '../../db/factors.db.ts'

/** Who is signed in, as their pages are told: with the zone whose clock they go by, whatever zone their device is in. */
export async function sessionOf(context: Context, actor: Actor, onlyEnrols: boolean): Promise<Session> {
  const { accountId, name, roles, soldierId, unitId } = actor
  const reset = await readFactorReset(context.db, accountId)
  return {
    accountId,
    name,
    roles: [...roles],
    soldierId,
    unitId,
    zone: await zoneOf(context, actor),
    onlyEnrols,
    factorReset: reset && { ...reset, at: reset.at.toISOString() },
  }
}

async function zoneOf({ db, clock, timeZone }: Context, { unitId, soldierId }: Actor): Promise<string> {
  const led = unitId === null ? null : await readTimeZone(db, unitId)
  if (led !== null) return led
  const today = dayInZone(clock().getTime(), timeZone)
  const own = soldierId === null ? null : await readSoldierTimeZone(db, soldierId, today)
  return own ?? (await readTopTimeZone(db)) ?? timeZone
}
