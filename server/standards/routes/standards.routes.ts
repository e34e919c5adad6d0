import { z } from 'zod'
import { Created, IdParams, PageQuery } from '../../contract/common.ts'
import { Effect, EffectBody } from '../../contract/standards/effects.ts'
import * as endpoints from '../../contract/standards/endpoints.ts'
import {
  Beginnings,
  Comparison,
  ComparisonQuery,
  Standard,
  StandardBody,
  StandardPage,
} from '../../contract/standards/standards.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { listBeginnings } from '../services/beginnings.ts'
import { effectOfPublishing } from '../services/effect.ts'
import {
  changeDraft,
  compareVersions,
  createStandard,
  deleteDraft,
  findStandards,
  getStandard,
  publishStandard,
  stampOf,
} from '../services/standards.ts'

/** An entity tag: what a version says, and nothing else, makes it. */
const Seen = z.object({
  'if-match': z
    .string()
    .max(100)
    .optional()
    .describe('The entity tag the draft was read with: it is changed only where it still says the same.'),
})

const tagOf = (standard: Standard): string => `"${stampOf(standard)}"`

const stampIn = (tag: string | undefined): string | undefined =>
  tag === undefined || tag.trim() === '*' ? undefined : tag.replace(/^\s*(W\/)?"?|"?\s*$/g, '')

export const standardRoutes: Routes = (app, context) => {
  addReading(app, context)
  addDrafts(app, context)
  addPublishing(app, context)
}

const addReading: Routes = (app, context) => {
  route(app, endpoints.listStandards, {
    config: { token: 'standards:read' },
    schema: {
      operationId: 'listStandards',
      summary: 'All versions of all standards, by code and version',
      tags: ['standards'],
      querystring: PageQuery,
      response: { 200: StandardPage, ...failures },
    },
    handler: (request) => findStandards(context, actorOf(request), request.query),
  })

  route(app, endpoints.getStandard, {
    config: { token: 'standards:read' },
    schema: {
      operationId: 'getStandard',
      summary: 'One version of a standard',
      tags: ['standards'],
      params: IdParams,
      response: { 200: Standard, ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      const standard = await getStandard(context, actorOf(request), request.params.id)
      reply.header('etag', tagOf(standard))
      return standard
    },
  })

  route(app, endpoints.listBeginnings, {
    schema: {
      operationId: 'listBeginnings',
      summary: 'Standards of common practice to make a draft of one’s own from',
      tags: ['standards'],
      response: { 200: Beginnings, ...failures },
    },
    handler: async (request) => listBeginnings(context, actorOf(request)),
  })

  route(app, endpoints.compareVersions, {
    schema: {
      operationId: 'compareVersions',
      summary: 'What is otherwise in a version than in the one before it, or in another',
      tags: ['standards'],
      params: IdParams,
      querystring: ComparisonQuery,
      response: { 200: Comparison, ...failures, ...notFound },
    },
    handler: (request) => compareVersions(context, actorOf(request), request.params.id, request.query.with),
  })
}

const addDrafts: Routes = (app, context) => {
  route(app, endpoints.createStandard, {
    schema: {
      operationId: 'createStandard',
      summary: 'Store a draft version of a standard',
      tags: ['standards'],
      body: StandardBody,
      response: { 201: Created, ...failures, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await createStandard(context, actorOf(request), request.body)),
  })

  route(app, endpoints.changeDraft, {
    schema: {
      operationId: 'changeDraft',
      summary: 'Change a draft version; a published one is frozen',
      tags: ['standards'],
      params: IdParams,
      headers: Seen,
      body: StandardBody,
      response: { 200: Standard, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      const seen = stampIn(request.headers['if-match'])
      const standard = await changeDraft(context, actorOf(request), request.params.id, request.body, seen)
      reply.header('etag', tagOf(standard))
      return standard
    },
  })

  route(app, endpoints.deleteDraft, {
    schema: {
      operationId: 'deleteDraft',
      summary: 'Delete a draft version that nothing was tested by',
      tags: ['standards'],
      params: IdParams,
      response: { 204: z.null().describe('It is gone.'), ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      await deleteDraft(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}

const addPublishing: Routes = (app, context) => {
  route(app, endpoints.effectOfPublishing, {
    schema: {
      operationId: 'effectOfPublishing',
      summary: 'Whose standing would change if this draft were published now; stores nothing',
      tags: ['standards'],
      params: IdParams,
      querystring: PageQuery,
      body: EffectBody,
      response: { 200: Effect, ...failures, ...notFound, ...conflict },
    },
    handler: (request) =>
      effectOfPublishing(context, actorOf(request), request.params.id, { ...request.body, ...request.query }),
  })

  route(app, endpoints.publishStandard, {
    config: { confirmed: true },
    schema: {
      operationId: 'publishStandard',
      summary: 'Publish a version, which freezes it; publishing again changes nothing',
      tags: ['standards'],
      params: IdParams,
      response: { 200: Standard, ...failures, ...notFound },
    },
    handler: (request) => publishStandard(context, actorOf(request), request.params.id),
  })
}
