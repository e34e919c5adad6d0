import { z } from 'zod'
import { FirstStepName, FirstSteps, SkipBody } from '../../contract/first-steps/first-steps.ts'
import { failures } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getFirstSteps, skipStep } from '../services/first-steps.ts'

export const firstStepRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/first-steps',
    schema: {
      operationId: 'getFirstSteps',
      summary: 'What a unit needs before its first test day, in order, and how far it is',
      tags: ['dashboards'],
      response: { 200: FirstSteps, ...failures },
    },
    handler: (request) => getFirstSteps(context, actorOf(request)),
  })

  app.route({
    method: 'PUT',
    url: '/api/first-steps/:step',
    schema: {
      operationId: 'skipFirstStep',
      summary: 'Leave a step out, or take it up again',
      tags: ['dashboards'],
      params: z.object({ step: FirstStepName }),
      body: SkipBody,
      response: { 200: FirstSteps, ...failures },
    },
    handler: (request) => skipStep(context, actorOf(request), request.params.step, request.body.skipped),
  })
}
