import { AlternatesBody, ChangedCeremony, HeightBody, NamingBody } from '../../contract/ceremonies/ceremonies.ts'
import * as endpoints from '../../contract/ceremonies/endpoints.ts'
import { PostCandidatePage, PostCandidateQuery, PostParams } from '../../contract/ceremonies/manning.ts'
import { Outlook, OutlookPage, OutlookQuery, OutlooksQuery } from '../../contract/ceremonies/outlooks.ts'
import { IdParams } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { setHeight } from '../../soldiers/services/set-height.ts'
import { changeAlternates } from '../services/manning/change-alternates.ts'
import { findOutlooks } from '../services/manning/find-outlooks.ts'
import { findPostCandidates } from '../services/manning/find-post-candidates.ts'
import { getOutlook } from '../services/manning/get-outlook.ts'
import { nameSoldiers } from '../services/manning/name-soldiers.ts'

/** Who stands where at a ceremony, who steps in, who could. */
export const manningRoutes: Routes = (app, context) => {
  addNaming(app, context)
  addOutlooks(app, context)
}

const addNaming: Routes = (app, context) => {
  route(app, endpoints.nameSoldiers, {
    schema: {
      operationId: 'nameSoldiers',
      summary: 'Name soldiers to posts of a ceremony, or take names off; all at once',
      tags: ['events'],
      params: IdParams,
      body: NamingBody,
      response: { 200: ChangedCeremony, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => nameSoldiers(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.changeAlternates, {
    schema: {
      operationId: 'changeAlternates',
      summary: 'Say who steps in at a ceremony, in order',
      tags: ['events'],
      params: IdParams,
      body: AlternatesBody,
      response: { 200: ChangedCeremony, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeAlternates(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.listPostCandidates, {
    schema: {
      operationId: 'listPostCandidates',
      summary: 'Who could be named to a post, who stood least first, and what speaks against each',
      tags: ['events'],
      params: PostParams,
      querystring: PostCandidateQuery,
      response: { 200: PostCandidatePage, ...failures, ...notFound },
    },
    handler: (request) => findPostCandidates(context, actorOf(request), request.params, request.query),
  })
}

const addOutlooks: Routes = (app, context) => {
  route(app, endpoints.getOutlook, {
    schema: {
      operationId: 'getOutlook',
      summary:
        'How the people of a unit stand with a ceremony: named, can stand, lapse before it, could make it, cannot',
      tags: ['events'],
      params: IdParams,
      querystring: OutlookQuery,
      response: { 200: Outlook, ...failures, ...notFound },
    },
    handler: (request) => getOutlook(context, actorOf(request), request.params.id, request.query),
  })

  route(app, endpoints.listOutlooks, {
    schema: {
      operationId: 'listOutlooks',
      summary: 'The next ceremonies, each with its short posts and how the people of a unit stand with it',
      tags: ['events'],
      querystring: OutlooksQuery,
      response: { 200: OutlookPage, ...failures, ...notFound },
    },
    handler: (request) => findOutlooks(context, actorOf(request), request.query),
  })

  route(app, endpoints.setHeight, {
    schema: {
      operationId: 'setHeight',
      summary: 'Keep a soldier’s height for posts with a height band, or forget it',
      tags: ['people'],
      params: IdParams,
      body: HeightBody,
      response: { 200: HeightBody, ...failures, ...notFound },
    },
    handler: (request) => setHeight(context, actorOf(request), request.params.id, request.body.heightCm),
  })
}
