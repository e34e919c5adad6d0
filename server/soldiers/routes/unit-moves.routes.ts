import { IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import {
  UnitMoveBody,
  UnitMoved,
  UnitMovePreview,
  UnitMoveQuery,
  UnitOrderBody,
} from '../../contract/soldiers/unit-moves.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { moveUnit, previewMove } from '../services/move-unit.ts'
import { orderUnits } from '../services/order-units.ts'

export const unitMoveRoutes: Routes = (app, context) => {
  route(app, endpoints.orderUnits, {
    schema: {
      operationId: 'orderUnits',
      summary: 'Put the units right below one in an order of their own',
      tags: ['people'],
      body: UnitOrderBody,
      response: { 200: UnitOrderBody, ...failures, ...conflict },
    },
    handler: (request) => orderUnits(context, actorOf(request), request.body),
  })

  route(app, endpoints.previewUnitMove, {
    schema: {
      operationId: 'previewUnitMove',
      summary: 'What a move of a unit would take along',
      tags: ['people'],
      params: IdParams,
      querystring: UnitMoveQuery,
      response: { 200: UnitMovePreview, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => {
      const { parentId = null, from } = request.query
      return previewMove(context, actorOf(request), request.params.id, { parentId, from })
    },
  })

  route(app, endpoints.moveUnit, {
    schema: {
      operationId: 'moveUnit',
      summary: 'Move a unit with all below it from a day on; its past stays where it was',
      tags: ['people'],
      params: IdParams,
      body: UnitMoveBody,
      response: { 200: UnitMoved, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => moveUnit(context, actorOf(request), request.params.id, request.body),
  })
}
