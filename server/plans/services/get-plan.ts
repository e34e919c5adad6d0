import type { Context } from '../../context/context.ts'
import type { Plan, PlanAnswer, PlanProblem } from '../../contract/plans/plans.ts'
import type { Actor } from '../../domain/access/actor.ts'
import { AppError, conflict, notFound } from '../../errors.ts'
import { askToStop, readAnswer, readPlan, readProblem, type StoredPlan } from '../db/plans.db.ts'
import { changedSince } from './freshness.ts'
import { workOf } from './work-of.ts'

/** A plan that whoever asks may see; one of a unit out of scope is not there. */
export async function openPlan(context: Context, actor: Actor, id: string): Promise<StoredPlan> {
  const plan = await readPlan(context.db, id)
  if (!plan) throw notFound('plan')
  try {
    await workOf(plan.kind).requireMay(context, actor, plan)
  } catch (error) {
    if (error instanceof AppError && error.kind === 'not-found') throw notFound('plan')
    throw error
  }
  return plan
}

/** How far a plan is, how good, and whether it still holds. */
export async function getPlan(context: Context, actor: Actor, id: string): Promise<Plan> {
  const plan = await openPlan(context, actor, id)
  const isSolved = plan.state === 'ready' || plan.state === 'stopped'
  const changed = isSolved ? await changedSince(context, actor, plan) : []
  const isLost = (plan.state === 'waiting' || plan.state === 'solving') && !plan.isBeating
  const { kind, unitId, from, to, options, levels, seconds, progress, askedBy, accepted } = plan
  return {
    id,
    kind,
    unitId,
    from,
    to,
    options,
    state: isLost ? 'failed' : changed.length > 0 ? 'stale' : plan.state,
    changed: [...changed],
    levels: [...levels],
    seconds: progress?.seconds ?? seconds,
    progress,
    failure: isLost ? 'The server that worked it out was stopped. Ask for the plan again.' : plan.failure,
    askedAt: plan.askedAt.toISOString(),
    askedBy,
    accepted: [...accepted],
  }
}

export async function getProblem(context: Context, actor: Actor, id: string): Promise<PlanProblem> {
  await openPlan(context, actor, id)
  const problem = await readProblem(context.db, id)
  if (!problem) throw notYet()
  return problem
}

export async function getAnswer(context: Context, actor: Actor, id: string): Promise<PlanAnswer> {
  await openPlan(context, actor, id)
  const answer = await readAnswer(context.db, id)
  if (!answer) throw notYet()
  return answer
}

/** Ends the search; the best so far becomes the answer. A plan that is solved stays as it is. */
export async function stopPlan(context: Context, actor: Actor, id: string): Promise<Plan> {
  await openPlan(context, actor, id)
  await askToStop(context.db, id)
  return getPlan(context, actor, id)
}

export const notYet = (): AppError =>
  conflict('not-solved-yet', 'This plan is still being worked out. Ask again in a moment.')
