import { notAllowed, requireUnitInScope } from '../../access/services/require.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { today } from '../../context/today.ts'
import type { StoredCertification } from '../../db/catalogue.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { asSuperior, type Scope } from '../../domain/access/scope.ts'
import { invalid } from '../../errors.ts'

/** For whom a forecast is made: the office, leaders and commanders, of their units; and today there. */
export async function openScope(
  context: Context,
  actor: Actor,
  unitId: string | undefined,
): Promise<{ scope: Scope; asOf: string }> {
  const scope = asSuperior(await scopeFor(context, actor))
  if (!scope.everyone && scope.unitId === null) throw notAllowed()
  await requireUnitInScope(context, scope, unitId)
  return { scope, asOf: await today(context, unitId ?? scope.unitId ?? undefined) }
}

/** The certification of a code. */
export async function openCertification(context: Context, code: string): Promise<StoredCertification> {
  const { certifications } = await context.catalogue.current(context.db)
  const found = certifications.find((one) => one.code === code)
  if (!found) {
    const detail = `There is no certification "${code}"; take its code from /api/certifications.`
    throw invalid('unknown-certification', 'certification', detail)
  }
  return found
}

/** Refuses a day that is over. */
export function requireDayToCome(on: string, asOf: string): void {
  if (on < asOf) throw invalid('day-is-over', 'on', `That day is over: give ${asOf} or a later one.`)
}
