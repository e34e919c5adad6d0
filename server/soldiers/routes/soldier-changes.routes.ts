import { z } from 'zod'
import { Page, Uuid } from '../../contract/common.ts'
import {
  ChangeCorrectionBody,
  ReasonBody,
  Soldier,
  SoldierChangeBody,
  SoldierChangePage,
} from '../../contract/soldiers/soldiers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { correctChange, findChanges, removeChange } from '../services/correct-changes.ts'
import { changeSoldier } from '../services/soldiers.ts'

const Id = z.strictObject({ id: Uuid })
const OfSoldier = z.strictObject({ id: Uuid, change: z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER) })

export const soldierChangeRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/soldiers/:id/changes',
    schema: {
      operationId: 'listChanges',
      summary: 'What was entered about a soldier’s unit, grade, arms and strength, in order',
      tags: ['people'],
      params: Id,
      querystring: z.strictObject(Page),
      response: { 200: SoldierChangePage, ...failures, ...notFound },
    },
    handler: (request) => findChanges(context, actorOf(request), request.params.id, request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/changes',
    schema: {
      operationId: 'changeSoldier',
      summary: 'Enter a move, promotion, change of arms, leaving or return from a day on',
      tags: ['people'],
      params: Id,
      body: SoldierChangeBody,
      response: { 200: Soldier, ...failures, ...notFound },
    },
    handler: (request) => changeSoldier(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'PUT',
    url: '/api/soldiers/:id/changes/:change',
    schema: {
      operationId: 'correctChange',
      summary: 'Correct an entered change; everything that hangs on it follows',
      tags: ['people'],
      params: OfSoldier,
      body: ChangeCorrectionBody,
      response: { 200: Soldier, ...failures, ...notFound },
    },
    handler: (request) =>
      correctChange(context, actorOf(request), request.params.id, request.params.change, request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/soldiers/:id/changes/:change/remove',
    schema: {
      operationId: 'removeChange',
      summary: 'Take back a change that never was',
      tags: ['people'],
      params: OfSoldier,
      body: ReasonBody,
      response: { 200: Soldier, ...failures, ...notFound, ...conflict },
    },
    handler: (request) =>
      removeChange(context, actorOf(request), request.params.id, request.params.change, request.body),
  })
}
