import type { Context } from '../../context/context.ts'
import { IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/plans/endpoints.ts'
import {
  AcceptBody,
  Accepted,
  AskedPlan,
  Plan,
  PlanAnswer,
  PlanBody,
  PlanProblem,
  RetestPlanRows,
  Undone,
} from '../../contract/plans/plans.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes, ZodApp } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { acceptPlan } from '../services/accept-plan.ts'
import { askPlan } from '../services/ask-plan.ts'
import { getAnswer, getPlan, getProblem, stopPlan } from '../services/get-plan.ts'
import { planRuns } from '../services/plan-runs.ts'
import { getRetestRows } from '../services/retests/plan-rows.ts'
import { undoPlan } from '../services/undo-plan.ts'

const tags = ['plans']

export const planRoutes: Routes = (app, context) => {
  const runs = planRuns(context, (error) => app.log.error({ err: error }, 'A plan failed'))
  app.addHook('preClose', () => runs.stop())
  addRuns(app, context, runs)
  addWhatIsWorkedOut(app, context)
  addAccepting(app, context)
}

const addRuns = (app: ZodApp, context: Context, runs: ReturnType<typeof planRuns>): void => {
  route(app, endpoints.askPlan, {
    schema: {
      operationId: 'askPlan',
      summary: 'Ask for a plan; the same content while nothing has changed is the same plan',
      tags,
      body: PlanBody,
      response: { 200: AskedPlan, 202: AskedPlan, ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      const { id, isNew } = await askPlan(context, runs, actorOf(request), request.body)
      return reply.code(isNew ? 202 : 200).send({ id })
    },
  })

  route(app, endpoints.getPlan, {
    schema: {
      operationId: 'getPlan',
      summary: 'How far a plan is, how good, and what has changed since',
      tags,
      params: IdParams,
      response: { 200: Plan, ...failures, ...notFound },
    },
    handler: (request) => getPlan(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.stopPlan, {
    schema: {
      operationId: 'stopPlan',
      summary: 'End the search; the best so far becomes the answer',
      tags,
      params: IdParams,
      response: { 200: Plan, ...failures, ...notFound },
    },
    handler: (request) => stopPlan(context, actorOf(request), request.params.id),
  })
}

const addWhatIsWorkedOut: Routes = (app, context) => {
  route(app, endpoints.getPlanProblem, {
    schema: {
      operationId: 'getPlanProblem',
      summary: 'The problem a plan solves, as plain data for any program',
      tags,
      params: IdParams,
      response: { 200: PlanProblem, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => getProblem(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.getPlanAnswer, {
    schema: {
      operationId: 'getPlanAnswer',
      summary: 'The answer of a plan, and why what is not placed is not',
      tags,
      params: IdParams,
      response: { 200: PlanAnswer, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => getAnswer(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.getRetestPlanRows, {
    schema: {
      operationId: 'getRetestPlanRows',
      summary:
        'A retest plan with names: what goes where, what is not placed, and the one change that would place most',
      tags,
      params: IdParams,
      response: { 200: RetestPlanRows, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => getRetestRows(context, actorOf(request), request.params.id),
  })
}

const addAccepting: Routes = (app, context) => {
  route(app, endpoints.acceptPlan, {
    schema: {
      operationId: 'acceptPlan',
      summary: 'Accept all of a plan or chosen pairs, all or none',
      tags,
      params: IdParams,
      body: AcceptBody,
      response: { 200: Accepted, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => acceptPlan(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.undoPlan, {
    schema: {
      operationId: 'undoPlan',
      summary: 'Take back what a plan booked and nobody has changed since',
      tags,
      params: IdParams,
      response: { 200: Undone, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => undoPlan(context, actorOf(request), request.params.id),
  })
}
