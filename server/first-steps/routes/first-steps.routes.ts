import * as endpoints from '../../contract/first-steps/endpoints.ts'
import { FirstSteps, SkipBody, StepParams } from '../../contract/first-steps/first-steps.ts'
import { failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getFirstSteps, skipStep } from '../services/first-steps.ts'

export const firstStepRoutes: Routes = (app, context) => {
  route(app, endpoints.getFirstSteps, {
    schema: {
      operationId: 'getFirstSteps',
      summary: 'What a unit needs before its first test day, in order, and how far it is',
      tags: ['dashboards'],
      response: { 200: FirstSteps, ...failures },
    },
    handler: (request) => getFirstSteps(context, actorOf(request)),
  })

  route(app, endpoints.skipFirstStep, {
    schema: {
      operationId: 'skipFirstStep',
      summary: 'Leave a step out, or take it up again',
      tags: ['dashboards'],
      params: StepParams,
      body: SkipBody,
      response: { 200: FirstSteps, ...failures },
    },
    handler: (request) => skipStep(context, actorOf(request), request.params.step, request.body.skipped),
  })
}
