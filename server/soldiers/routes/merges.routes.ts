import { z } from 'zod'
import { Created, Page, Uuid } from '../../contract/common.ts'
import { MergeBody, MergePage, MergePreview, MergeQuestion } from '../../contract/soldiers/merges.ts'
import { ReasonBody } from '../../contract/soldiers/soldiers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findMerges } from '../services/merges/find-merges.ts'
import { mergeSoldiers, previewMerge } from '../services/merges/merge-soldiers.ts'
import { undoMerge } from '../services/merges/undo-merge.ts'

const Id = z.strictObject({ id: Uuid })

export const mergeRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/merges',
    schema: {
      operationId: 'listMerges',
      summary: 'Merges of soldiers entered twice, the latest first',
      tags: ['people'],
      querystring: z.strictObject({ ...Page, soldierId: Uuid.optional().describe('The entry that was kept.') }),
      response: { 200: MergePage, ...failures },
    },
    handler: (request) => findMerges(context, actorOf(request), request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/merges/preview',
    schema: {
      operationId: 'previewMerge',
      summary: 'What merging another entry into this one would do; stores nothing',
      tags: ['people'],
      params: Id,
      body: MergeQuestion,
      response: { 200: MergePreview, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => previewMerge(context, actorOf(request), request.params.id, request.body.awayId),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/merges',
    schema: {
      operationId: 'mergeSoldiers',
      summary: 'Merge another entry of the same soldier into this one',
      tags: ['people'],
      params: Id,
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

  app.route({
    method: 'POST',
    url: '/api/merges/:id/undo',
    schema: {
      operationId: 'undoMerge',
      summary: 'Take two merged entries apart again',
      tags: ['people'],
      params: Id,
      body: ReasonBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => undoMerge(context, actorOf(request), request.params.id, request.body),
  })
}
