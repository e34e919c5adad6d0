import { z } from 'zod'
import { Uuid } from '../../contract/common.ts'
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
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { acceptPlan } from '../services/accept-plan.ts'
import { askPlan } from '../services/ask-plan.ts'
import { getAnswer, getPlan, getProblem, stopPlan } from '../services/get-plan.ts'
import { planRuns } from '../services/plan-runs.ts'
import { getRetestRows } from '../services/retests/plan-rows.ts'
import { undoPlan } from '../services/undo-plan.ts'

const ById = z.strictObject({ id: Uuid })
const tags = ['plans']

export const planRoutes: Routes = (app, context) => {
  const runs = planRuns(context, (error) => app.log.error({ err: error }, 'A plan failed'))
  app.addHook('preClose', () => runs.stop())

  app.route({
    method: 'POST',
    url: '/api/plans',
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

  app.route({
    method: 'GET',
    url: '/api/plans/:id',
    schema: {
      operationId: 'getPlan',
      summary: 'How far a plan is, how good, and what has changed since',
      tags,
      params: ById,
      response: { 200: Plan, ...failures, ...notFound },
    },
    handler: (request) => getPlan(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'GET',
    url: '/api/plans/:id/problem',
    schema: {
      operationId: 'getPlanProblem',
      summary: 'The problem a plan solves, as plain data for any program',
      tags,
      params: ById,
      response: { 200: PlanProblem, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => getProblem(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'GET',
    url: '/api/plans/:id/answer',
    schema: {
      operationId: 'getPlanAnswer',
      summary: 'The answer of a plan, and why what is not placed is not',
      tags,
      params: ById,
      response: { 200: PlanAnswer, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => getAnswer(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'GET',
    url: '/api/plans/:id/retests',
    schema: {
      operationId: 'getRetestPlanRows',
      summary:
        'A retest plan with names: what goes where, what is not placed, and the one change that would place most',
      tags,
      params: ById,
      response: { 200: RetestPlanRows, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => getRetestRows(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'POST',
    url: '/api/plans/:id/accept',
    schema: {
      operationId: 'acceptPlan',
      summary: 'Accept all of a plan or chosen pairs, all or none',
      tags,
      params: ById,
      body: AcceptBody,
      response: { 200: Accepted, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => acceptPlan(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/plans/:id/undo',
    schema: {
      operationId: 'undoPlan',
      summary: 'Take back what a plan booked and nobody has changed since',
      tags,
      params: ById,
      response: { 200: Undone, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => undoPlan(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'POST',
    url: '/api/plans/:id/stop',
    schema: {
      operationId: 'stopPlan',
      summary: 'End the search; the best so far becomes the answer',
      tags,
      params: ById,
      response: { 200: Plan, ...failures, ...notFound },
    },
    handler: (request) => stopPlan(context, actorOf(request), request.params.id),
  })
}
