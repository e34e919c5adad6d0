import { scopeFor } from '../../access/services/scope-for.ts'
import { readStatuses } from '../../assessment/db/standings.db.ts'
import type { Context } from '../../context/context.ts'
import { todayOfSoldier } from '../../context/today.ts'
import type { Forecasts } from '../../contract/ability/forecasts.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { notFound } from '../../errors.ts'
import { readSoldier } from '../../soldiers/db/roster.db.ts'
import { readHistoriesOf } from '../db/histories.db.ts'
import { readForecastGrounds } from './forecast-ground.ts'
import { forecastOf } from './forecast-of.ts'
import { withoutThoseToGrade } from './without-those-to-grade.ts'

/** More certifications than this fit nobody. */
const MOST_CERTIFICATIONS = 500

/**
 * The chance to pass the next test of each standard that a certification open to the soldier requires, as of a day. Not for
 * graders, who are to judge them: whoever sees a soldier only as a grader, or is booked to grade them, is given none.
 */
export async function getForecasts(
  context: Context,
  actor: Actor,
  soldierId: string,
  query: { readonly asOf?: string | undefined },
): Promise<Forecasts> {
  const whole = await scopeFor(context, actor)
  const scope = { ...whole, graderId: null }
  const today = await todayOfSoldier(context, soldierId)
  const asOf = query.asOf ?? today
  if (!(await readSoldier(context.db, whole, soldierId, asOf))) throw notFound('soldier')
  if (!(await readSoldier(context.db, scope, soldierId, asOf))) return { asOf, items: [] }
  if ((await withoutThoseToGrade(context, actor, [soldierId])).length === 0) return { asOf, items: [] }
  const [catalogue, statuses] = await Promise.all([
    context.catalogue.current(context.db),
    readStatuses(context.db, scope, soldierId, asOf, { limit: MOST_CERTIFICATIONS, after: null }),
  ])
  const open = new Set(statuses.map(({ certification }) => certification))
  const required = catalogue.certifications.filter(({ code }) => open.has(code)).flatMap(({ standards }) => standards)
  const grounds = await readForecastGrounds(context, catalogue, new Set(required), { asOf, isPast: asOf < today })
  const asked = [...grounds.values()].map(({ standardId }) => ({ candidateId: soldierId, standardId }))
  const histories = await readHistoriesOf(context.db, asked)
  const items = [...grounds.values()].map((ground) =>
    forecastOf(ground, histories.find(({ standardId }) => standardId === ground.standardId)!, asOf),
  )
  return { asOf, items }
}
