import { readTimeZone } from '../../access/db/units.db.ts'
import { scopeFor } from '../../access/services/scope-for.ts'
import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { dayInZone } from '../../domain/calendar/day-in-zone.ts'
import type { PlanProblem } from '../../domain/plans/problem.ts'
import { readAnswer, readLastEntry, readProblem, type StoredPlan, storeCompared } from '../db/plans.db.ts'
import { workOf } from './work-of.ts'

/**
 * What a plan rests on and is not so any more, a sentence each; empty: it holds. Where nothing was entered since it was last
 * compared, and no slot has begun nor a day ended, nothing can have changed; else the problem is stated anew.
 */
export async function changedSince(context: Context, actor: Actor, plan: StoredPlan): Promise<readonly string[]> {
  const [problem, entry] = await Promise.all([readProblem(context.db, plan.id), readLastEntry(context.db)])
  if (!problem || plan.comparedAt === null) return []
  const at = context.clock()
  if (entry === plan.comparedEntry && !(await hasTimePassed(context, plan, problem, at))) return plan.changed
  const scope = await scopeFor(context, actor)
  const work = workOf(plan.kind)
  const now = await work.state(context, actor, scope, plan)
  const chosen = (await readAnswer(context.db, plan.id))?.pairs ?? []
  const changed = await work.changes(context, plan, problem, now.problem, chosen)
  await storeCompared(context.db, plan.id, { entry, at, changed })
  return changed
}

/** Whether the day has changed, or one of the places has begun, since the plan was last compared. */
async function hasTimePassed(context: Context, plan: StoredPlan, { places }: PlanProblem, at: Date): Promise<boolean> {
  const then = plan.comparedAt!.getTime()
  const zone = (await readTimeZone(context.db, plan.unitId)) ?? context.timeZone
  if (dayInZone(then, zone) !== dayInZone(at.getTime(), zone)) return true
  return places.some(({ startsAt }) => {
    const begins = Date.parse(String(startsAt))
    return begins > then && begins <= at.getTime()
  })
}
