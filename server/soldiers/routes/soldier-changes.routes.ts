import { IdParams, PageQuery } from '../../contract/common.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import {
  ChangeCorrectionBody,
  ChangeParams,
  ReasonBody,
  Soldier,
  SoldierChangeBody,
  SoldierChangePage,
} from '../../contract/soldiers/soldiers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { correctChange, findChanges, removeChange } from '../services/correct-changes.ts'
import { changeSoldier } from '../services/soldiers.ts'

export const soldierChangeRoutes: Routes = (app, context) => {
  route(app, endpoints.listChanges, {
    schema: {
      operationId: 'listChanges',
      summary: 'What was entered about a soldier’s unit, grade, arms and strength, in order',
      tags: ['people'],
      params: IdParams,
      querystring: PageQuery,
      response: { 200: SoldierChangePage, ...failures, ...notFound },
    },
    handler: (request) => findChanges(context, actorOf(request), request.params.id, request.query),
  })

  route(app, endpoints.changeSoldier, {
    schema: {
      operationId: 'changeSoldier',
      summary: 'Enter a move, promotion, change of arms, leaving or return from a day on',
      tags: ['people'],
      params: IdParams,
      body: SoldierChangeBody,
      response: { 200: Soldier, ...failures, ...notFound },
    },
    handler: (request) => changeSoldier(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.correctChange, {
    schema: {
      operationId: 'correctChange',
      summary: 'Correct an entered change; everything that depends on it follows',
      tags: ['people'],
      params: ChangeParams,
      body: ChangeCorrectionBody,
      response: { 200: Soldier, ...failures, ...notFound },
    },
    handler: (request) =>
      correctChange(context, actorOf(request), request.params.id, request.params.change, request.body),
  })

  route(app, endpoints.removeChange, {
    schema: {
      operationId: 'removeChange',
      summary: 'Take back a change that never was',
      tags: ['people'],
      params: ChangeParams,
      body: ReasonBody,
      response: { 200: Soldier, ...failures, ...notFound, ...conflict },
    },
    handler: (request) =>
      removeChange(context, actorOf(request), request.params.id, request.params.change, request.body),
  })
}
