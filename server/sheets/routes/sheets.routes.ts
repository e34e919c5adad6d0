import { z } from 'zod'
import { IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/sheets/endpoints.ts'
import {
  ScoredSheet,
  SheetBody,
  SheetDecisionBody,
  SheetDetail,
  SheetPage,
  SheetQuery,
  StoredSheet,
} from '../../contract/sheets/sheets.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { decideSheet } from '../services/decide-sheet.ts'
import { readDeviceTime } from '../services/device-time.ts'
import { findSheets, getSheet } from '../services/find-sheets.ts'
import { scoreSheetBody } from '../services/score-sheet-body.ts'
import { submitSheet } from '../services/submit-sheet.ts'

/** What the clock of the device showed when it sent the sheet; whatever it says, the sheet is taken. */
const DeviceTime = z.object({
  'x-device-time': z.string().optional().describe('RFC 3339; what cannot be read is taken as not said.'),
})

const deviceTime = (headers: z.infer<typeof DeviceTime>): Date | null => readDeviceTime(headers['x-device-time'])

export const sheetRoutes: Routes = (app, context) => {
  addReading(app, context)
  addArriving(app, context)
  addDeciding(app, context)
}

const addReading: Routes = (app, context) => {
  route(app, endpoints.listSheets, {
    config: { token: 'sheets:read' },
    schema: {
      operationId: 'listSheets',
      summary: 'Grade sheets, latest first',
      tags: ['sheets'],
      querystring: SheetQuery,
      response: { 200: SheetPage, ...failures },
    },
    handler: (request) => findSheets(context, actorOf(request), request.query),
  })

  route(app, endpoints.getSheet, {
    config: { token: 'sheets:read' },
    schema: {
      operationId: 'getSheet',
      summary: 'One sheet with every revision and decision',
      tags: ['sheets'],
      params: IdParams,
      response: { 200: SheetDetail, ...failures, ...notFound },
    },
    handler: (request) => getSheet(context, actorOf(request), request.params.id),
  })
}

const addArriving: Routes = (app, context) => {
  route(app, endpoints.scoreSheet, {
    schema: {
      operationId: 'scoreSheet',
      summary: 'What a sheet would come to; stores nothing',
      tags: ['sheets'],
      headers: DeviceTime,
      body: SheetBody,
      response: { 200: ScoredSheet, ...failures },
    },
    handler: (request) => scoreSheetBody(context, actorOf(request), request.body, deviceTime(request.headers)),
  })

  route(app, endpoints.submitSheet, {
    config: { token: 'sheets:write' },
    schema: {
      operationId: 'submitSheet',
      summary: 'Store a finished test under the client’s id, once',
      tags: ['sheets'],
      params: IdParams,
      headers: DeviceTime,
      body: SheetBody,
      response: {
        200: StoredSheet.describe('The same body was stored under this id before; nothing changed.'),
        201: StoredSheet,
        ...failures,
        ...conflict,
      },
    },
    handler: async (request, reply) => {
      const { params, body, headers } = request
      const { created, sheet } = await submitSheet(context, actorOf(request), params.id, body, deviceTime(headers))
      return reply.code(created ? 201 : 200).send(sheet)
    },
  })
}

const addDeciding: Routes = (app, context) => {
  route(app, endpoints.decideSheet, {
    schema: {
      operationId: 'decideSheet',
      summary: 'Count a held sheet, which waives what holds it, or reject it',
      tags: ['sheets'],
      params: IdParams,
      body: SheetDecisionBody,
      response: { 200: StoredSheet, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => decideSheet(context, actorOf(request), request.params.id, request.body),
  })
}
