import { Created, FileAnswer, IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import {
  AsOfQuery,
  NamesBody,
  RosterFileQuery,
  Soldier,
  SoldierBody,
  SoldierCount,
  SoldierCountQuery,
  SoldierDetail,
  SoldierPage,
  SoldierQuery,
  StatusQuery,
} from '../../contract/soldiers/soldiers.ts'
import { CertificationStatusPage } from '../../contract/standards/certifications.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { sendFile } from '../../http/send-file.ts'
import { actorOf } from '../../plugins/session.ts'
import { correctNames } from '../services/correct-names.ts'
import { getStatus } from '../services/get-status.ts'
import { writeRosterFile } from '../services/roster-file.ts'
import { countRoster, createSoldier, findSoldiers, getSoldier } from '../services/soldiers.ts'

export const soldierRoutes: Routes = (app, context) => {
  addRoster(app, context)
  addOneSoldier(app, context)
}

const addRoster: Routes = (app, context) => {
  route(app, endpoints.listSoldiers, {
    config: { token: 'roster:read' },
    schema: {
      operationId: 'listSoldiers',
      summary: 'The roster as of a day, by roster number',
      tags: ['people'],
      querystring: SoldierQuery,
      response: { 200: SoldierPage, ...failures },
    },
    handler: (request) => findSoldiers(context, actorOf(request), request.query),
  })

  route(app, endpoints.countSoldiers, {
    config: { token: 'roster:read' },
    schema: {
      operationId: 'countSoldiers',
      summary: 'How many soldiers the roster has as of a day',
      tags: ['people'],
      querystring: SoldierCountQuery,
      response: { 200: SoldierCount, ...failures },
    },
    handler: (request) => countRoster(context, actorOf(request), request.query),
  })

  route(app, endpoints.getRosterFile, {
    config: { token: 'roster:read' },
    schema: {
      operationId: 'getRosterFile',
      summary: 'Who is of the strength on a day, with units and absences, as a CSV file',
      tags: ['people'],
      querystring: RosterFileQuery,
      response: { 200: FileAnswer, ...failures, ...notFound },
    },
    handler: async (request, reply) => sendFile(reply, await writeRosterFile(context, actorOf(request), request.query)),
  })
}

const addOneSoldier: Routes = (app, context) => {
  route(app, endpoints.createSoldier, {
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

  route(app, endpoints.getSoldier, {
    schema: {
      operationId: 'getSoldier',
      summary: 'One soldier, with everything that is not on a sheet',
      tags: ['people'],
      params: IdParams,
      querystring: AsOfQuery,
      response: { 200: SoldierDetail, ...failures, ...notFound },
    },
    handler: (request) => getSoldier(context, actorOf(request), request.params.id, request.query.asOf),
  })

  route(app, endpoints.correctNames, {
    schema: {
      operationId: 'correctNames',
      summary: 'Correct roster number and names',
      tags: ['people'],
      params: IdParams,
      body: NamesBody,
      response: { 200: Soldier, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => correctNames(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.getStatus, {
    config: { token: 'readiness:read' },
    schema: {
      operationId: 'getStatus',
      summary: 'The status in each certification that fits the soldier, as of a day',
      tags: ['certifications'],
      params: IdParams,
      querystring: StatusQuery,
      response: { 200: CertificationStatusPage, ...failures, ...notFound },
    },
    handler: (request) => getStatus(context, actorOf(request), request.params.id, request.query),
  })
}
