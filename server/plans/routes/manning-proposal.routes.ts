import { IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/plans/endpoints.ts'
import { ManningProposal } from '../../contract/plans/manning.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { proposeManning } from '../services/manning/propose-manning.ts'

export const manningProposalRoutes: Routes = (app, context) => {
  route(app, endpoints.proposeManning, {
    schema: {
      operationId: 'proposeManning',
      summary: 'Who could stand at the posts of a ceremony that are short, what competes, and who would end it',
      tags: ['events'],
      params: IdParams,
      response: { 200: ManningProposal, ...failures, ...notFound },
    },
    handler: (request) => proposeManning(context, actorOf(request), request.params.id),
  })
}
