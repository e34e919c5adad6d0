import { z } from 'zod'
import { Created, Page, Uuid } from '../contract/common.ts'
import { Standard, StandardBody, StandardPage } from '../contract/standards.ts'
import { actorOf } from '../plugins/session.ts'
import { createStandard, findStandards, getStandard, publishStandard } from '../services/catalogue/standards.ts'
import { conflict, failures, notFound } from './failures.ts'
import type { Routes } from './routes.ts'

const Id = z.strictObject({ id: Uuid })

export const standardRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/standards',
    schema: {
      operationId: 'listStandards',
      summary: 'All versions of all standards, by code and version',
      tags: ['standards'],
      querystring: z.strictObject(Page),
      response: { 200: StandardPage, ...failures },
    },
    handler: (request) => findStandards(context, actorOf(request), request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/standards',
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

  app.route({
    method: 'GET',
    url: '/api/standards/:id',
    schema: {
      operationId: 'getStandard',
      summary: 'One version of a standard',
      tags: ['standards'],
      params: Id,
      response: { 200: Standard, ...failures, ...notFound },
    },
    handler: (request) => getStandard(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'POST',
    url: '/api/standards/:id/publish',
    schema: {
      operationId: 'publishStandard',
      summary: 'Publish a version, which freezes it; publishing again changes nothing',
      tags: ['standards'],
      params: Id,
      response: { 200: Standard, ...failures, ...notFound },
    },
    handler: (request) => publishStandard(context, actorOf(request), request.params.id),
  })
}
