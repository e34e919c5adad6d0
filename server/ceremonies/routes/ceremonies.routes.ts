import {
  CancelBody,
  CeremonyBody,
  CeremonyChange,
  CeremonyDetail,
  CeremonyPage,
  CeremonyQuery,
  ChangedCeremony,
} from '../../contract/ceremonies/ceremonies.ts'
import * as endpoints from '../../contract/ceremonies/endpoints.ts'
import { Created, IdParams } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { cancelCeremony } from '../services/cancel-ceremony.ts'
import { changeCeremony } from '../services/change-ceremony.ts'
import { createCeremony } from '../services/create-ceremony.ts'
import { findCeremonies } from '../services/find-ceremonies.ts'
import { getCeremony } from '../services/get-ceremony.ts'

/** Ceremonies: planning, changing and calling them off. */
export const ceremonyRoutes: Routes = (app, context) => {
  route(app, endpoints.listCeremonies, {
    config: { token: 'ceremonies:read' },
    schema: {
      operationId: 'listCeremonies',
      summary: 'Ceremonies from a day on, in order of time',
      tags: ['events'],
      querystring: CeremonyQuery,
      response: { 200: CeremonyPage, ...failures },
    },
    handler: (request) => findCeremonies(context, actorOf(request), request.query),
  })

  route(app, endpoints.createCeremony, {
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

  route(app, endpoints.getCeremony, {
    config: { token: 'ceremonies:read' },
    schema: {
      operationId: 'getCeremony',
      summary: 'One ceremony, its posts as they form up, and who may stand at them and why not',
      tags: ['events'],
      params: IdParams,
      response: { 200: CeremonyDetail, ...failures, ...notFound },
    },
    handler: (request) => getCeremony(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.changeCeremony, {
    schema: {
      operationId: 'changeCeremony',
      summary: 'Change a ceremony: times, rehearsals, posts added, moved and taken away',
      tags: ['events'],
      params: IdParams,
      body: CeremonyChange,
      response: { 200: ChangedCeremony, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeCeremony(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.cancelCeremony, {
    schema: {
      operationId: 'cancelCeremony',
      summary: 'Call a ceremony off, with the reason',
      tags: ['events'],
      params: IdParams,
      body: CancelBody,
      response: { 200: ChangedCeremony, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => cancelCeremony(context, actorOf(request), request.params.id, request.body),
  })
}
