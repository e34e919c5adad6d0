import * as endpoints from '../../contract/accounts/endpoints.ts'
import {
  InvitationLinks,
  InvitationsBody,
  NamesBody,
  ProposedNames,
  SoldierWithoutPage,
  WithoutQuery,
} from '../../contract/accounts/several.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findSoldiersWithout, proposeAccountNames } from '../services/several/find-soldiers-without.ts'
import { inviteAccounts } from '../services/several/invite-accounts.ts'

const tags = ['accounts']

/** Accounts for many at once; for administrators. For others there is nothing at these addresses. */
export const severalAccountsRoutes: Routes = (app, context) => {
  route(app, endpoints.listSoldiersWithoutAccount, {
    schema: {
      operationId: 'listSoldiersWithoutAccount',
      summary: 'Who on the roster has no account; who is named as a sponsor or grader first',
      tags,
      querystring: WithoutQuery,
      response: { 200: SoldierWithoutPage, ...failures, ...notFound },
    },
    handler: (request) => findSoldiersWithout(context, actorOf(request), request.query),
  })

  route(app, endpoints.proposeAccountNames, {
    schema: {
      operationId: 'proposeAccountNames',
      summary: 'Names to sign in with for these soldiers, like none that is taken; stores nothing',
      tags,
      body: NamesBody,
      response: { 200: ProposedNames, ...failures, ...notFound },
    },
    handler: (request) => proposeAccountNames(context, actorOf(request), request.body.soldierIds),
  })

  route(app, endpoints.inviteAccounts, {
    config: { limits: 'strict', confirmed: true },
    schema: {
      operationId: 'inviteAccounts',
      summary: 'Make many accounts, all or none; the answer has their links, once',
      tags,
      body: InvitationsBody,
      response: { 201: InvitationLinks, ...failures, ...notFound },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await inviteAccounts(context, actorOf(request), request.body)),
  })
}
