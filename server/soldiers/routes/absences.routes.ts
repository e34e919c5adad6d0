import { z } from 'zod'
import { Created, IdParams, PageQuery } from '../../contract/common.ts'
import { AbsenceBody, AbsencePage, AbsentQuery, AbsentSoldierPage } from '../../contract/soldiers/absences.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { addAbsence, changeAbsence, findAbsences, findAbsent, removeAbsence } from '../services/absences.ts'

export const absenceRoutes: Routes = (app, context) => {
  addReading(app, context)
  addEntering(app, context)
}

const addReading: Routes = (app, context) => {
  route(app, endpoints.listAbsent, {
    config: { token: 'roster:read' },
    schema: {
      operationId: 'listAbsent',
      summary: 'Who is absent on a day, by roster number',
      tags: ['people'],
      querystring: AbsentQuery,
      response: { 200: AbsentSoldierPage, ...failures, ...notFound },
    },
    handler: (request) => findAbsent(context, actorOf(request), request.query),
  })

  route(app, endpoints.listAbsences, {
    config: { token: 'roster:read' },
    schema: {
      operationId: 'listAbsences',
      summary: 'A soldier’s absences, the latest first',
      tags: ['people'],
      params: IdParams,
      querystring: PageQuery,
      response: { 200: AbsencePage, ...failures, ...notFound },
    },
    handler: (request) => findAbsences(context, actorOf(request), request.params.id, request.query),
  })
}

const addEntering: Routes = (app, context) => {
  route(app, endpoints.addAbsence, {
    config: { token: 'roster:write' },
    schema: {
      operationId: 'addAbsence',
      summary: 'A soldier cannot be called on for some days',
      tags: ['people'],
      params: IdParams,
      body: AbsenceBody,
      response: { 201: Created.describe('The absence is entered.'), ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addAbsence(context, actorOf(request), request.params.id, request.body)),
  })

  route(app, endpoints.changeAbsence, {
    config: { token: 'roster:write' },
    schema: {
      operationId: 'changeAbsence',
      summary: 'Change or end an absence',
      tags: ['people'],
      params: IdParams,
      body: AbsenceBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeAbsence(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.removeAbsence, {
    config: { token: 'roster:write' },
    schema: {
      operationId: 'removeAbsence',
      summary: 'Take back an absence that did not happen',
      tags: ['people'],
      params: IdParams,
      response: { 204: z.null().describe('It is gone.'), ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      await removeAbsence(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}
