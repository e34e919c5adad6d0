import * as endpoints from '../../contract/record/endpoints.ts'
import { RecordPage, RecordQuery, RecordVerification } from '../../contract/record/record.ts'
import { failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findRecord, verifyRecord } from '../services/read-record.ts'

export const recordRoutes: Routes = (app, context) => {
  route(app, endpoints.listRecord, {
    schema: {
      operationId: 'listRecord',
      summary: 'Search the record of changes, latest first',
      tags: ['record'],
      querystring: RecordQuery,
      response: { 200: RecordPage, ...failures },
    },
    handler: (request) => findRecord(context, actorOf(request), request.query),
  })

  route(app, endpoints.verifyRecord, {
    schema: {
      operationId: 'verifyRecord',
      summary: 'Walk the whole record and say whether it is as it was written',
      tags: ['record'],
      response: { 200: RecordVerification, ...failures },
    },
    handler: (request) => verifyRecord(context, actorOf(request)),
  })
}
