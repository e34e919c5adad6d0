import { IdParams } from '../../contract/common.ts'
import { AsKnown, AsKnownQuery } from '../../contract/soldiers/as-known.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getAsKnown } from '../services/as-known/get-as-known.ts'

export const asKnownRoutes: Routes = (app, context) => {
  route(app, endpoints.getAsKnown, {
    schema: {
      operationId: 'getAsKnown',
      summary: 'How a soldier stood on a day as it was known then, how that looks now, and what made the difference',
      tags: ['people'],
      params: IdParams,
      querystring: AsKnownQuery,
      response: { 200: AsKnown, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => getAsKnown(context, actorOf(request), request.params.id, request.query),
  })
}
