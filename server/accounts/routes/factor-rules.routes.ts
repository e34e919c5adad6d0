import * as endpoints from '../../contract/accounts/endpoints.ts'
import { FactorOverview, FactorResetBody, FactorRules } from '../../contract/accounts/factors.ts'
import { Created, IdParams } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { changeFactorRules, findFactorRules } from '../services/administration/factor-rules.ts'
import { resetFactors } from '../services/factors/reset-factors.ts'

const tags = ['accounts']

/** Who needs a second factor, and lost ones; for administrators. For others there is nothing at these addresses. */
export const factorRulesRoutes: Routes = (app, context) => {
  route(app, endpoints.listFactorRules, {
    schema: {
      operationId: 'listFactorRules',
      summary: 'Which roles need a second factor, and how many accounts have none yet',
      tags,
      response: { 200: FactorOverview, ...failures, ...notFound },
    },
    handler: (request) => findFactorRules(context, actorOf(request)),
  })

  route(app, endpoints.changeFactorRules, {
    config: { confirmed: true },
    schema: {
      operationId: 'changeFactorRules',
      summary: 'Say which roles need a second factor, and from which day on',
      tags,
      body: FactorRules,
      response: { 200: FactorOverview, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeFactorRules(context, actorOf(request), request.body),
  })

  route(app, endpoints.resetFactors, {
    config: { confirmed: true },
    schema: {
      operationId: 'resetFactors',
      summary: 'Take all second factors of an account away, for a phone that is lost, and end its sessions',
      tags,
      params: IdParams,
      body: FactorResetBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => resetFactors(context, actorOf(request), request.params.id, request.body.reason),
  })
}
