import { z } from 'zod'
import {
  CancelBody,
  CeremonyBody,
  CeremonyChange,
  CeremonyDetail,
  CeremonyPage,
  ChangedCeremony,
} from '../../contract/ceremonies/ceremonies.ts'
import { Created, Page, PlainDate, Uuid } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { cancelCeremony } from '../services/cancel-ceremony.ts'
import { changeCeremony } from '../services/change-ceremony.ts'
import { createCeremony } from '../services/create-ceremony.ts'
import { findCeremonies } from '../services/find-ceremonies.ts'
import { getCeremony } from '../services/get-ceremony.ts'

const Id = z.strictObject({ id: Uuid })

/** Ceremonies: planning, changing and calling them off. */
export const ceremonyRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/ceremonies',
    config: { token: 'ceremonies:read' },
    schema: {
      operationId: 'listCeremonies',
      summary: 'Ceremonies from a day on, in order of time',
      tags: ['events'],
      querystring: z.strictObject({
        ...Page,
        from: PlainDate.optional().describe('Left out: today.'),
        through: PlainDate.optional().describe('Last day; left out: all that are planned.'),
        cancelled: z.enum(['with']).optional().describe('"with": those called off, too.'),
      }),
      response: { 200: CeremonyPage, ...failures },
    },
    handler: (request) => findCeremonies(context, actorOf(request), request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/ceremonies',
    schema: {
      operationId: 'createCeremony',
      summary: 'Plan a ceremony with its times, posts and alternates',
      tags: ['events'],
      body: CeremonyBody,
      response: { 201: Created, ...failures },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await createCeremony(context, actorOf(request), request.body)),
  })

  app.route({
    method: 'GET',
    url: '/api/ceremonies/:id',
    config: { token: 'ceremonies:read' },
    schema: {
      operationId: 'getCeremony',
      summary: 'One ceremony, its posts as they form up, and who may stand at them and why not',
      tags: ['events'],
      params: Id,
      response: { 200: CeremonyDetail, ...failures, ...notFound },
    },
    handler: (request) => getCeremony(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'PUT',
    url: '/api/ceremonies/:id',
    schema: {
      operationId: 'changeCeremony',
      summary: 'Change a ceremony: times, rehearsals, posts added, moved and taken away',
      tags: ['events'],
      params: Id,
      body: CeremonyChange,
      response: { 200: ChangedCeremony, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeCeremony(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/ceremonies/:id/cancel',
    schema: {
      operationId: 'cancelCeremony',
      summary: 'Call a ceremony off, with the reason',
      tags: ['events'],
      params: Id,
      body: CancelBody,
      response: { 200: ChangedCeremony, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => cancelCeremony(context, actorOf(request), request.params.id, request.body),
  })
}
