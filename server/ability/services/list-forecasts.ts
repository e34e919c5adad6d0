import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import { today as todayOf } from '../../context/today.ts'
import type { Forecast, ListedForecast, ListedForecasts } from '../../contract/ability/forecasts.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { soldiersInScope } from '../../soldiers/db/roster.db.ts'
import { readHistoriesOf } from '../db/histories.db.ts'
import { readForecastGrounds } from './forecast-ground.ts'
import { keptForecast } from './kept-forecast.ts'
import { withoutThoseToGrade } from './without-those-to-grade.ts'

interface Asked {
  readonly tests: readonly { readonly soldierId: string; readonly standard: string }[]
  readonly asOf?: string | undefined
  /** With what to drill. */
  readonly drill?: boolean | undefined
}

/**
 * Forecasts of the next tests asked for, in their order. Who is out of scope, or is to be graded by whoever asks, is left out,
 * as is a standard without a version in force.
 */
export async function listForecasts(context: Context, actor: Actor, asked: Asked): Promise<ListedForecasts> {
  const scope = { ...(await scopeFor(context, actor)), graderId: null }
  const today = await todayOf(context)
  const asOf = asked.asOf ?? today
  const ids = [...new Set(asked.tests.map(({ soldierId }) => soldierId))]
  const [visible, catalogue] = await Promise.all([
    soldiersInScope(context.db, scope, ids).then((seen) => withoutThoseToGrade(context, actor, seen)),
    context.catalogue.current(context.db),
  ])
  const seen = new Set(visible)
  const tests = asked.tests.filter(({ soldierId }) => seen.has(soldierId))
  const standards = new Set(tests.map(({ standard }) => standard))
  const grounds = await readForecastGrounds(context, catalogue, standards, { asOf, isPast: asOf < today })
  const wanted = tests.flatMap(({ soldierId, standard }) => {
    const ground = grounds.get(standard)
    return ground ? [{ candidateId: soldierId, standardId: ground.standardId, ground }] : []
  })
  if (wanted.length === 0) return { asOf, items: [] }
  const histories = new Map(
    (await readHistoriesOf(context.db, wanted)).map((one) => [`${one.candidateId} ${one.standardId}`, one]),
  )
  const items: ListedForecast[] = []
  for (const { candidateId, standardId, ground } of wanted) {
    const forecast = await keptForecast(ground, histories.get(`${candidateId} ${standardId}`)!, asOf)
    items.push({ soldierId: candidateId, ...listed(forecast, asked.drill === true) })
  }
  return { asOf, items }
}

function listed(
  { sheetIds: _, measures, drill, goSince, notReached, whatItTakes, ...chance }: Forecast,
  withDrill: boolean,
) {
  return withDrill ? { ...chance, measures, drill, goSince, notReached, whatItTakes } : chance
}
