import { listUnits } from '../../access/db/units.db.ts'
import { requireUnitInScope } from '../../access/services/require.ts'
import { rosterScopeFor, scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { addDays } from '../../domain/calendar/plain-date.ts'
import { type WrittenFile, writeTable } from '../../files/write-table.ts'
import { listAbsent } from '../db/absences.db.ts'
import { listSoldiers } from '../db/roster.db.ts'

const HEAD = ['Roster number', 'Family name', 'Given name', 'Grade', 'Arms', 'Unit', 'Absent']

/** A file has everybody at once; no unit comes near this. */
const ALL = { limit: 100_000, after: null }

/**
 * Who is of the strength on a day, by roster number, as a CSV file: with the unit's name, and the kind of absence of who
 * is absent then. In: the day or `tomorrow` (left out: today) and the unit at the top (left out: everybody in scope).
 */
export async function writeRosterFile(
  context: Context,
  actor: Actor,
  { asOf, unitId }: { asOf?: string | undefined; unitId?: string | undefined },
): Promise<WrittenFile> {
  const scope = await rosterScopeFor(context, actor)
  await requireUnitInScope(context, scope, unitId)
  const day = asOf && asOf !== 'tomorrow' ? asOf : addDays(await today(context, unitId), asOf ? 1 : 0)
  const { db, timeZone } = context
  const [soldiers, absent, units] = await Promise.all([
    listSoldiers(db, scope, { day, unitId, strength: 'serving' }, ALL),
    listAbsent(db, await scopeFor(context, actor), { day, unitId }, ALL),
    listUnits(db, scope, timeZone, ALL),
  ])
  const kinds = new Map(absent.map(({ rosterNumber, kind }) => [rosterNumber, kind]))
  const names = new Map(units.map(({ id, name }) => [id, name]))
  const rows = soldiers.map(({ rosterNumber, familyName, givenName, grade, arms, unitId: of }) => [
    rosterNumber,
    familyName,
    givenName,
    grade,
    arms.join(';'),
    names.get(of ?? '') ?? '',
    kinds.get(rosterNumber) ?? '',
  ])
  return writeTable(`roster-${day}`, 'csv', [HEAD, ...rows])
}
