import { IdParams } from '../../contract/common.ts'
import {
  AmendmentDecisionBody,
  AmendmentProposalPage,
  AmendmentQuery,
  ProposedAmendment,
} from '../../contract/sheets/amendments.ts'
import { DuplicateQuery, PossibleDuplicatePage } from '../../contract/sheets/duplicates.ts'
import * as endpoints from '../../contract/sheets/endpoints.ts'
import { SheetAmendment, StoredSheet } from '../../contract/sheets/sheets.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { amendSheet } from '../services/amendments/amend-sheet.ts'
import { decideAmendment } from '../services/amendments/decide-amendment.ts'
import { findAmendments } from '../services/amendments/find-amendments.ts'
import { findDuplicates } from '../services/find-duplicates.ts'

export const amendmentRoutes: Routes = (app, context) => {
  route(app, endpoints.amendSheet, {
    schema: {
      operationId: 'amendSheet',
      summary: 'Amend a sheet; what changes what counts waits for a second person',
      tags: ['sheets'],
      params: IdParams,
      body: SheetAmendment,
      response: {
        200: StoredSheet.describe('The new revision is in force.'),
        202: ProposedAmendment,
        ...failures,
        ...notFound,
        ...conflict,
      },
    },
    handler: async (request, reply) => {
      const amended = await amendSheet(context, actorOf(request), request.params.id, request.body)
      return 'applied' in amended ? reply.code(200).send(amended.applied) : reply.code(202).send(amended.proposed)
    },
  })

  route(app, endpoints.listPossibleDuplicates, {
    schema: {
      operationId: 'listPossibleDuplicates',
      summary: 'Pairs of sheets that may be of one test, latest first; an amendment sets one aside',
      tags: ['sheets'],
      querystring: DuplicateQuery,
      response: { 200: PossibleDuplicatePage, ...failures },
    },
    handler: (request) => findDuplicates(context, actorOf(request), request.query),
  })

  route(app, endpoints.listAmendments, {
    schema: {
      operationId: 'listAmendments',
      summary: 'Proposed amendments, oldest first',
      tags: ['sheets'],
      querystring: AmendmentQuery,
      response: { 200: AmendmentProposalPage, ...failures },
    },
    handler: (request) => findAmendments(context, actorOf(request), request.query),
  })

  route(app, endpoints.decideAmendment, {
    config: { confirmed: true },
    schema: {
      operationId: 'decideAmendment',
      summary: 'Confirm a proposed amendment, which puts it in force, or refuse it',
      tags: ['sheets'],
      params: IdParams,
      body: AmendmentDecisionBody,
      response: { 200: StoredSheet, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => decideAmendment(context, actorOf(request), request.params.id, request.body),
  })
}
