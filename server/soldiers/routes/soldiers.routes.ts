import { z } from 'zod'
import { Code, Created, Page, PlainDate, storableText, Uuid } from '../../contract/common.ts'
import {
  NamesBody,
  Soldier,
  SoldierBody,
  SoldierCount,
  SoldierDetail,
  SoldierPage,
} from '../../contract/soldiers/soldiers.ts'
import { CertificationStatusPage } from '../../contract/standards/certifications.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { FileAnswer, sendFile } from '../../http/send-file.ts'
import { actorOf } from '../../plugins/session.ts'
import { correctNames } from '../services/correct-names.ts'
import { getStatus } from '../services/get-status.ts'
import { writeRosterFile } from '../services/roster-file.ts'
import { countRoster, createSoldier, findSoldiers, getSoldier } from '../services/soldiers.ts'

const Id = z.strictObject({ id: Uuid })
const AsOf = z.strictObject({ asOf: PlainDate.optional() })
const Roster = {
  asOf: PlainDate.optional(),
  unitId: Uuid.optional().describe('Only the strength of this unit and those below it.'),
  q: storableText(100).optional().describe('Parts of roster number, name or grade.'),
  grade: Code.optional(),
  arm: Code.optional().describe('Only those who carry this arm that day.'),
  strength: z.enum(['serving', 'absent', 'left']).optional().describe('Of the strength that day, absent, or left.'),
}

export const soldierRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/soldiers',
    config: { token: 'roster:read' },
    schema: {
      operationId: 'listSoldiers',
      summary: 'The roster as of a day, by roster number',
      tags: ['people'],
      querystring: z.strictObject({ ...Page, ...Roster }),
      response: { 200: SoldierPage, ...failures },
    },
    handler: (request) => findSoldiers(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/soldiers/count',
    config: { token: 'roster:read' },
    schema: {
      operationId: 'countSoldiers',
      summary: 'How many soldiers the roster has as of a day',
      tags: ['people'],
      querystring: z.strictObject(Roster),
      response: { 200: SoldierCount, ...failures },
    },
    handler: (request) => countRoster(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/roster.csv',
    config: { token: 'roster:read' },
    schema: {
      operationId: 'getRosterFile',
      summary: 'Who is of the strength on a day, with units and absences, as a CSV file',
      tags: ['people'],
      querystring: z.strictObject({
        asOf: z
          .union([PlainDate, z.literal('tomorrow')])
          .optional()
          .describe('Left out: today, and tomorrow the day after it, by the clock of the unit.'),
        unitId: Roster.unitId,
      }),
      response: { 200: FileAnswer, ...failures, ...notFound },
    },
    handler: async (request, reply) => sendFile(reply, await writeRosterFile(context, actorOf(request), request.query)),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers',
    schema: {
      operationId: 'createSoldier',
      summary: 'Put a soldier on the roster',
      tags: ['people'],
      body: SoldierBody,
      response: { 201: Created, ...failures, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await createSoldier(context, actorOf(request), request.body)),
  })

  app.route({
    method: 'GET',
    url: '/api/soldiers/:id',
    schema: {
      operationId: 'getSoldier',
      summary: 'One soldier, with everything that is not on a sheet',
      tags: ['people'],
      params: Id,
      querystring: AsOf,
      response: { 200: SoldierDetail, ...failures, ...notFound },
    },
    handler: (request) => getSoldier(context, actorOf(request), request.params.id, request.query.asOf),
  })

  app.route({
    method: 'PUT',
    url: '/api/soldiers/:id',
    schema: {
      operationId: 'correctNames',
      summary: 'Correct roster number and names',
      tags: ['people'],
      params: Id,
      body: NamesBody,
      response: { 200: Soldier, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => correctNames(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'GET',
    url: '/api/soldiers/:id/status',
    config: { token: 'readiness:read' },
    schema: {
      operationId: 'getStatus',
      summary: 'The status in each certification that fits the soldier, as of a day',
      tags: ['certifications'],
      params: Id,
      querystring: z.strictObject({ ...Page, asOf: PlainDate.optional() }),
      response: { 200: CertificationStatusPage, ...failures, ...notFound },
    },
    handler: (request) => getStatus(context, actorOf(request), request.params.id, request.query),
  })
}
