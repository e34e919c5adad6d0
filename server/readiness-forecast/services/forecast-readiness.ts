import type { Context } from '../../context/context.ts'
import type { ForecastQuery, ReadinessForecast } from '../../contract/readiness-forecast/readiness-forecast.ts'
import type { StoredCertification } from '../../db/catalogue.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { listNeeds } from '../db/needs.db.ts'
import { gatherAhead } from './gather-ahead.ts'
import { openCertification, openScope, requireDayToCome } from './open-query.ts'
import { toForecast } from './to-forecast.ts'

/** How many of a unit's people required to hold a certification will be certified on a day, given what is booked. */
export async function forecastReadiness(
  context: Context,
  actor: Actor,
  { unitId, certification, on }: ForecastQuery,
): Promise<ReadinessForecast> {
  const { scope, asOf } = await openScope(context, actor, unitId)
  requireDayToCome(on, asOf)
  return forecastOf(context, scope, await openCertification(context, certification), { unitId, on, asOf })
}

/** The same, once it is clear who asks and what. */
export async function forecastOf(
  context: Context,
  scope: Scope,
  certification: StoredCertification,
  question: { readonly unitId: string | undefined; readonly on: string; readonly asOf: string },
): Promise<ReadinessForecast> {
  const [gathered, needs] = await Promise.all([
    gatherAhead(context, scope, certification, question),
    listNeeds(context.db, scope, { ...question, certificationId: certification.id }),
  ])
  return toForecast(gathered, needs)
}
