import { Created, IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import { MergeBody, MergePage, MergePreview, MergePreviewBody, MergeQuery } from '../../contract/soldiers/merges.ts'
import { ReasonBody } from '../../contract/soldiers/soldiers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findMerges } from '../services/merges/find-merges.ts'
import { mergeSoldiers, previewMerge } from '../services/merges/merge-soldiers.ts'
import { undoMerge } from '../services/merges/undo-merge.ts'

export const mergeRoutes: Routes = (app, context) => {
  route(app, endpoints.listMerges, {
    schema: {
      operationId: 'listMerges',
      summary: 'Merges of soldiers entered twice, the latest first',
      tags: ['people'],
      querystring: MergeQuery,
      response: { 200: MergePage, ...failures },
    },
    handler: (request) => findMerges(context, actorOf(request), request.query),
  })

  route(app, endpoints.previewMerge, {
    schema: {
      operationId: 'previewMerge',
      summary: 'What merging another entry into this one would do; stores nothing',
      tags: ['people'],
      params: IdParams,
      body: MergePreviewBody,
      response: { 200: MergePreview, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => previewMerge(context, actorOf(request), request.params.id, request.body.awayId),
  })

  route(app, endpoints.mergeSoldiers, {
    schema: {
      operationId: 'mergeSoldiers',
      summary: 'Merge another entry of the same soldier into this one',
      tags: ['people'],
      params: IdParams,
      body: MergeBody,
      response: {
        201: Created.describe('They are one; the id is that of the merge.'),
        ...failures,
        ...notFound,
        ...conflict,
      },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await mergeSoldiers(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.undoMerge, {
    schema: {
      operationId: 'undoMerge',
      summary: 'Take two merged entries apart again',
      tags: ['people'],
      params: IdParams,
      body: ReasonBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => undoMerge(context, actorOf(request), request.params.id, request.body),
  })
}
