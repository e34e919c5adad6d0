import * as endpoints from '../../contract/search/endpoints.ts'
import { FoundPage, SearchQuery } from '../../contract/search/search.ts'
import { failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { search } from '../services/search.ts'

export const searchRoutes: Routes = (app, context) => {
  route(app, endpoints.search, {
    schema: {
      operationId: 'search',
      summary: 'Soldiers by name or roster number, ceremonies, test days and standards by title',
      tags: ['dashboards'],
      querystring: SearchQuery,
      response: { 200: FoundPage, ...failures },
    },
    handler: (request) => search(context, actorOf(request), request.query.q),
  })
}
