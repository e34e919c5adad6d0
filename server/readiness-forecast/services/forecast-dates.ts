import type { Context } from '../../context/context.ts'
import type { ForecastDates } from '../../contract/readiness-forecast/readiness-forecast.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { monthEnds } from '../../domain/calendar/month-ends.ts'
import { addDays } from '../../domain/calendar/plain-date.ts'
import { listCeremonyDays } from '../db/needs.db.ts'
import { forecastOf } from './forecast-readiness.ts'
import { openScope } from './open-query.ts'

const DAYS_SHOWN = 2
/** Without a ceremony it is the end of a month, at least so many days ahead. */
const SOON_DAYS = 7

/**
 * Forecasts for the next days that matter: those with ceremonies that call on a unit, each certification they ask for; without any the
 * end of the month, for all certifications. Those that nobody of the unit is required to hold are left out.
 */
export async function forecastDates(
  context: Context,
  actor: Actor,
  query: { readonly unitId?: string | undefined },
): Promise<ForecastDates> {
  const { scope, asOf } = await openScope(context, actor, query.unitId)
  const unitId = query.unitId ?? scope.unitId ?? undefined
  const { certifications } = await context.catalogue.current(context.db)
  const asked = await listCeremonyDays(context.db, scope, { unitId, from: asOf, limit: DAYS_SHOWN })
  const [monthEnd] = monthEnds(addDays(asOf, SOON_DAYS), addDays(asOf, SOON_DAYS + 31))
  const all = certifications.map(({ code }) => ({ on: monthEnd!, certification: code }))
  const items = await Promise.all(
    (asked.length > 0 ? asked : all).flatMap(({ on, certification: code }) => {
      const certification = certifications.find((one) => one.code === code)
      return certification ? forecastOf(context, scope, certification, { unitId, on, asOf }) : []
    }),
  )
  const mattering = items.filter(({ required }) => required > 0)
  return { unitId: unitId ?? null, items: mattering.map(({ atLeast: _, ...item }) => item) }
}
