import { IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import { RemovalBody, RemovalPreview, Removed } from '../../contract/soldiers/removals.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { previewRemoval } from '../services/removals/preview-removal.ts'
import { removeSoldier } from '../services/removals/remove-soldier.ts'

export const removalRoutes: Routes = (app, context) => {
  route(app, endpoints.previewRemoval, {
    schema: {
      operationId: 'previewRemoval',
      summary: 'What removing the personal data of a soldier would take out, and what stays; changes nothing',
      tags: ['people'],
      params: IdParams,
      response: { 200: RemovalPreview, ...failures, ...notFound },
    },
    handler: (request) => previewRemoval(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.removeSoldier, {
    config: { confirmed: true },
    schema: {
      operationId: 'removeSoldier',
      summary: 'Remove the personal data of a soldier who has left, for good; figures stay',
      tags: ['people'],
      params: IdParams,
      body: RemovalBody,
      response: { 200: Removed, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => removeSoldier(context, actorOf(request), request.params.id, request.body),
  })
}
