import { z } from 'zod'
import { Created, Page, PlainDate, Uuid } from '../../contract/common.ts'
import { AbsenceBody, AbsencePage, AbsentSoldierPage } from '../../contract/soldiers/absences.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { addAbsence, changeAbsence, findAbsences, findAbsent, removeAbsence } from '../services/absences.ts'

const Id = z.strictObject({ id: Uuid })

export const absenceRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/absences',
    config: { token: 'roster:read' },
    schema: {
      operationId: 'listAbsent',
      summary: 'Who is absent on a day, by roster number',
      tags: ['people'],
      querystring: z.strictObject({ ...Page, on: PlainDate.optional(), unitId: Uuid.optional() }),
      response: { 200: AbsentSoldierPage, ...failures, ...notFound },
    },
    handler: (request) => findAbsent(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/soldiers/:id/absences',
    config: { token: 'roster:read' },
    schema: {
      operationId: 'listAbsences',
      summary: 'A soldier’s absences, the latest first',
      tags: ['people'],
      params: Id,
      querystring: z.strictObject(Page),
      response: { 200: AbsencePage, ...failures, ...notFound },
    },
    handler: (request) => findAbsences(context, actorOf(request), request.params.id, request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/absences',
    config: { token: 'roster:write' },
    schema: {
      operationId: 'addAbsence',
      summary: 'A soldier cannot be called on for some days',
      tags: ['people'],
      params: Id,
      body: AbsenceBody,
      response: { 201: Created.describe('The absence is entered.'), ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await addAbsence(context, actorOf(request), request.params.id, request.body)),
  })

  app.route({
    method: 'PUT',
    url: '/api/absences/:id',
    config: { token: 'roster:write' },
    schema: {
      operationId: 'changeAbsence',
      summary: 'Change or end an absence',
      tags: ['people'],
      params: Id,
      body: AbsenceBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeAbsence(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'DELETE',
    url: '/api/absences/:id',
    config: { token: 'roster:write' },
    schema: {
      operationId: 'removeAbsence',
      summary: 'Take back an absence that did not happen',
      tags: ['people'],
      params: Id,
      response: { 204: z.null().describe('It is gone.'), ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      await removeAbsence(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}
