import { z } from 'zod'
import { AlternatesBody, ChangedCeremony, HeightBody, NamingBody } from '../../contract/ceremonies/ceremonies.ts'
import { PostCandidatePage } from '../../contract/ceremonies/manning.ts'
import { Outlook, OutlookPage } from '../../contract/ceremonies/outlooks.ts'
import { Page, storableText, Uuid } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { setHeight } from '../../soldiers/services/set-height.ts'
import { changeAlternates } from '../services/manning/change-alternates.ts'
import { findOutlooks } from '../services/manning/find-outlooks.ts'
import { findPostCandidates } from '../services/manning/find-post-candidates.ts'
import { getOutlook } from '../services/manning/get-outlook.ts'
import { nameSoldiers } from '../services/manning/name-soldiers.ts'

const Id = z.strictObject({ id: Uuid })

/** Who stands where at a ceremony, who steps in, who could. */
export const manningRoutes: Routes = (app, context) => {
  app.route({
    method: 'POST',
    url: '/api/ceremonies/:id/name',
    schema: {
      operationId: 'nameSoldiers',
      summary: 'Name soldiers to posts of a ceremony, or take names off; all at once',
      tags: ['events'],
      params: Id,
      body: NamingBody,
      response: { 200: ChangedCeremony, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => nameSoldiers(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'PUT',
    url: '/api/ceremonies/:id/alternates',
    schema: {
      operationId: 'changeAlternates',
      summary: 'Say who steps in at a ceremony, in order',
      tags: ['events'],
      params: Id,
      body: AlternatesBody,
      response: { 200: ChangedCeremony, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeAlternates(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'GET',
    url: '/api/ceremonies/:id/posts/:postId/candidates',
    schema: {
      operationId: 'listPostCandidates',
      summary: 'Who could be named to a post, who stood least first, and what speaks against each',
      tags: ['events'],
      params: z.strictObject({ id: Uuid, postId: Uuid }),
      querystring: z.strictObject({
        ...Page,
        q: storableText(100)
          .optional()
          .describe('Parts of roster number, name or grade: also who may not stand there. Left out: who is certified.'),
      }),
      response: { 200: PostCandidatePage, ...failures, ...notFound },
    },
    handler: (request) => findPostCandidates(context, actorOf(request), request.params, request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/ceremonies/:id/outlook',
    schema: {
      operationId: 'getOutlook',
      summary:
        'How the people of a unit stand with a ceremony: named, can stand, lapse before it, could make it, cannot',
      tags: ['events'],
      params: Id,
      querystring: z.strictObject({
        ...Page,
        unitId: Uuid.optional().describe('With all below it; left out: everybody in scope of the unit that mans it.'),
      }),
      response: { 200: Outlook, ...failures, ...notFound },
    },
    handler: (request) => getOutlook(context, actorOf(request), request.params.id, request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/outlooks',
    schema: {
      operationId: 'listOutlooks',
      summary: 'The next ceremonies, each with its short posts and how the people of a unit stand with it',
      tags: ['events'],
      querystring: z.strictObject({
        ...Page,
        limit: z.coerce.number().int().min(1).max(20).default(4),
        unitId: Uuid.optional().describe('With all below it; left out: the unit of the account.'),
      }),
      response: { 200: OutlookPage, ...failures, ...notFound },
    },
    handler: (request) => findOutlooks(context, actorOf(request), request.query),
  })

  app.route({
    method: 'PUT',
    url: '/api/soldiers/:id/height',
    schema: {
      operationId: 'setHeight',
      summary: 'Keep a soldier’s height for posts with a height band, or forget it',
      tags: ['people'],
      params: Id,
      body: HeightBody,
      response: { 200: HeightBody, ...failures, ...notFound },
    },
    handler: (request) => setHeight(context, actorOf(request), request.params.id, request.body.heightCm),
  })
}
