import { findChancesThen } from '../../ability/services/find-chances-then.ts'
import type { Context } from '../../context/context.ts'
import type { PastReadiness } from '../../contract/readiness-forecast/readiness-forecast.ts'
import type { StoredCertification } from '../../db/catalogue.db.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Scope } from '../../domain/access/scope.ts'
import { addMonths } from '../../domain/calendar/add-months.ts'
import { monthEnds } from '../../domain/calendar/month-ends.ts'
import { addDays } from '../../domain/calendar/plain-date.ts'
import { readSoldiersThen } from '../db/soldiers-ahead.db.ts'
import { type Gathered, versionsIn } from './gather-ahead.ts'
import { openCertification, openScope } from './open-query.ts'
import { toForecast } from './to-forecast.ts'

const MONTHS = 12
const DAYS_ON = 30

/**
 * The forecasts that would have been made at the last twelve month-ends for thirty days on, and what came: each from the record as it
 * stood, the tests of those days standing for what was booked.
 */
export async function findPastReadiness(
  context: Context,
  actor: Actor,
  { unitId, certification: code }: { readonly unitId?: string | undefined; readonly certification: string },
): Promise<PastReadiness> {
  const { scope, asOf: today } = await openScope(context, actor, unitId)
  const certification = await openCertification(context, code)
  const ends = monthEnds(addMonths(today, -MONTHS - 3), today)
  const over = ends.filter((end) => end < today && addDays(end, DAYS_ON) < today).slice(-MONTHS)
  const items: PastReadiness['items'] = []
  for (const asOf of over) {
    const one = await forecastThen(context, scope, certification, { unitId, asOf, on: addDays(asOf, DAYS_ON) })
    if (one.required > 0) items.push(one)
  }
  return { unitId: unitId ?? null, certification: code, items, held: items.filter(({ held }) => held).length }
}

async function forecastThen(
  context: Context,
  scope: Scope,
  certification: StoredCertification,
  question: { readonly unitId: string | undefined; readonly on: string; readonly asOf: string },
): Promise<PastReadiness['items'][number]> {
  const filter = { ...question, certification: certification.code, certificationId: certification.id }
  const [rows, { judging, standards }] = await Promise.all([
    readSoldiersThen(context.db, scope, filter),
    context.catalogue.current(context.db),
  ])
  const tests = rows.soldiers.flatMap((soldier) => soldier.tests)
  const chances = await findChancesThen(context, tests, question.asOf)
  const gathered: Gathered = {
    filter,
    certification,
    breaks: judging.breaks,
    rows,
    chancesOf: (_, { id }) => ({ weights: [1], pass: [[chances.get(id)!]], basis: 'model' }),
    versionOn: versionsIn(standards),
  }
  const { required, expected, low, high } = toForecast(gathered, [], (soldier) => soldier.tests)
  const came = rows.settled + rows.soldiers.filter(({ isCertified }) => isCertified).length
  const { asOf, on } = question
  return { asOf, on, required, expected, low, high, came, held: low <= came && came <= high }
}
