import { setTimeout } from 'node:timers/promises'
import { expect } from 'vitest'
import type { Plan, PlanAnswer, PlanProblem } from '../../../server/contract/plans/plans.ts'
import { judgeAnswer } from '../../../server/domain/plans/judge-answer.ts'
import type { Client } from '../../support/client.ts'

/** Waits until a plan is worked out. */
export async function workedOut(client: Client, id: string): Promise<Plan> {
  for (;;) {
    const plan = await client.get<Plan>(`/api/plans/${id}`)
    if (plan.state !== 'waiting' && plan.state !== 'solving') return plan
    await setTimeout(30)
  }
}

/** Asks for a plan, waits for it, and holds its answer against its problem with what shares no code with the solver. */
export async function solvedPlan(client: Client, body: object) {
  const { id } = await client.post('/api/plans', body, 202)
  const plan = await workedOut(client, id)
  expect(plan.state, plan.failure ?? '').toBe('ready')
  const problem = await client.get<PlanProblem>(`/api/plans/${id}/problem`)
  const answer = await client.get<PlanAnswer>(`/api/plans/${id}/answer`)
  const { broken, values } = judgeAnswer(problem, answer.pairs)
  expect(broken).toEqual([])
  expect(plan.levels.map(({ value }) => value)).toEqual(values)
  return { id, plan, problem, answer }
}
