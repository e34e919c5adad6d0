import type { Context } from '../../context/context.ts'
import type { Actor } from '../../domain/access/actor.ts'
import type { Scope } from '../../domain/access/scope.ts'
import type { PlanProblem, Solution } from '../../domain/plans/problem.ts'
import type { NewAnswer, PlanAsked, StoredPlan } from '../db/plans.db.ts'

/** A problem that was stated, and how an answer to it is told. */
export interface Stated {
  readonly problem: PlanProblem
  /** The answer, with why what is not placed is not. */
  answer(solution: Solution): NewAnswer
}

/** What a kind of plan does its own way. */
export interface PlanKindWork {
  /** Refuses who may not plan this. */
  requireMay(context: Context, actor: Actor, asked: Pick<PlanAsked, 'unitId'>): Promise<void>
  /** Gathers what the plan rests on, as it is now. */
  state(context: Context, actor: Actor, scope: Scope, asked: PlanAsked): Promise<Stated>
  /** What a problem differs in from how it is now stated, a sentence each. */
  changes(
    context: Context,
    plan: StoredPlan,
    before: PlanProblem,
    now: PlanProblem,
    chosen: readonly string[],
  ): Promise<string[]>
}
