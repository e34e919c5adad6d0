import type { IdParams } from '../common.ts'
import type { Endpoint } from '../endpoint.ts'
import type { ManningProposal } from './manning.ts'
import type {
  AcceptBody,
  Accepted,
  AskedPlan,
  Plan,
  PlanAnswer,
  PlanBody,
  PlanProblem,
  RetestPlanRows,
  Undone,
} from './plans.ts'

export const proposeManning = 'GET /api/ceremonies/:id/proposal' as Endpoint<{
  params: typeof IdParams
  answer: typeof ManningProposal
}>

export const askPlan = 'POST /api/plans' as Endpoint<{ body: typeof PlanBody; answer: typeof AskedPlan }>

export const getPlan = 'GET /api/plans/:id' as Endpoint<{ params: typeof IdParams; answer: typeof Plan }>

export const getPlanProblem = 'GET /api/plans/:id/problem' as Endpoint<{
  params: typeof IdParams
  answer: typeof PlanProblem
}>

export const getPlanAnswer = 'GET /api/plans/:id/answer' as Endpoint<{
  params: typeof IdParams
  answer: typeof PlanAnswer
}>

export const getRetestPlanRows = 'GET /api/plans/:id/retests' as Endpoint<{
  params: typeof IdParams
  answer: typeof RetestPlanRows
}>

export const acceptPlan = 'POST /api/plans/:id/accept' as Endpoint<{
  params: typeof IdParams
  body: typeof AcceptBody
  answer: typeof Accepted
}>

export const undoPlan = 'POST /api/plans/:id/undo' as Endpoint<{ params: typeof IdParams; answer: typeof Undone }>

export const stopPlan = 'POST /api/plans/:id/stop' as Endpoint<{ params: typeof IdParams; answer: typeof Plan }>
