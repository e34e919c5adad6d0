import { z } from 'zod'
import { Uuid } from '../../contract/common.ts'
import { RemovalBody, RemovalPreview, Removed } from '../../contract/soldiers/removals.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { previewRemoval } from '../services/removals/preview-removal.ts'
import { removeSoldier } from '../services/removals/remove-soldier.ts'

const Id = z.strictObject({ id: Uuid })

export const removalRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/soldiers/:id/removal',
    schema: {
      operationId: 'previewRemoval',
      summary: 'What removing the personal data of a soldier would take out, and what stays; changes nothing',
      tags: ['people'],
      params: Id,
      response: { 200: RemovalPreview, ...failures, ...notFound },
    },
    handler: (request) => previewRemoval(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/removal',
    schema: {
      operationId: 'removeSoldier',
      summary: 'Remove the personal data of a soldier who has left, for good; figures stay',
      tags: ['people'],
      params: Id,
      body: RemovalBody,
      response: { 200: Removed, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => removeSoldier(context, actorOf(request), request.params.id, request.body),
  })
}
