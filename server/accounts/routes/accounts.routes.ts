import {
  AccountBody,
  AccountPage,
  AccountQuery,
  DisabledBody,
  InvitationBody,
  InvitationLink,
} from '../../contract/accounts/accounts.ts'
import * as endpoints from '../../contract/accounts/endpoints.ts'
import { Created, IdParams } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { changeReach } from '../services/administration/change-reach.ts'
import { findAccounts } from '../services/administration/find-accounts.ts'
import { inviteAccount } from '../services/administration/invite-account.ts'
import { sendLinkAnew } from '../services/administration/send-link-anew.ts'
import { setDisabled } from '../services/administration/set-disabled.ts'

const tags = ['accounts']

/** Everybody's accounts; for administrators. For others there is nothing at these addresses. */
export const accountsRoutes: Routes = (app, context) => {
  route(app, endpoints.listAccounts, {
    schema: {
      operationId: 'listAccounts',
      summary: 'The accounts, by name',
      tags,
      querystring: AccountQuery,
      response: { 200: AccountPage, ...failures, ...notFound },
    },
    handler: (request) => findAccounts(context, actorOf(request), request.query),
  })

  route(app, endpoints.inviteAccount, {
    config: { limits: 'strict', confirmed: true },
    schema: {
      operationId: 'inviteAccount',
      summary: 'Make an account; the answer has the link with which its password is chosen, once',
      tags,
      body: InvitationBody,
      response: { 201: InvitationLink, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await inviteAccount(context, actorOf(request), request.body)),
  })

  route(app, endpoints.changeAccount, {
    config: { confirmed: true },
    schema: {
      operationId: 'changeAccount',
      summary: 'Change roles, soldier and unit of an account',
      tags,
      params: IdParams,
      body: AccountBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => changeReach(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.disableAccount, {
    config: { confirmed: true },
    schema: {
      operationId: 'disableAccount',
      summary: 'Disable an account, which ends its sessions and tokens, or enable it again',
      tags,
      params: IdParams,
      body: DisabledBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => setDisabled(context, actorOf(request), request.params.id, request.body.disabled),
  })

  route(app, endpoints.sendLinkAnew, {
    config: { limits: 'strict', confirmed: true },
    schema: {
      operationId: 'sendLinkAnew',
      summary: 'Take the password away, end all sessions and tokens, and make a new link; the answer has it, once',
      tags,
      params: IdParams,
      response: { 201: InvitationLink, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await sendLinkAnew(context, actorOf(request), request.params.id)),
  })
}
