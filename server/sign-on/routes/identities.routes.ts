import { z } from 'zod'
import { IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/sign-on/endpoints.ts'
import { LinkBody, OwnIdentityList, ProviderAddress, UnlinkBody } from '../../contract/sign-on/sign-on.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, originOf, setAttemptCookie, visitorOf } from '../../plugins/session.ts'
import { ATTEMPT_MS, beginLink } from '../services/begin-sign-on.ts'
import { findOwnIdentities, unlinkOwn } from '../services/own-identities.ts'

const tags = ['account']

/** What one's own account is linked with. */
export const identityRoutes: Routes = (app, context) => {
  route(app, endpoints.listOwnIdentities, {
    schema: {
      operationId: 'listOwnIdentities',
      summary: 'The providers of single sign-on one’s account is linked with, or could be',
      tags,
      response: { 200: OwnIdentityList, ...failures },
    },
    handler: (request) => findOwnIdentities(context, actorOf(request)),
  })

  route(app, endpoints.beginLink, {
    config: { limits: 'strict', confirmed: 'where a factor is' },
    schema: {
      operationId: 'beginLink',
      summary: 'Where the browser goes so that the account is linked with who signs in there; the answer sets a cookie',
      tags,
      body: LinkBody,
      response: { 200: ProviderAddress, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      const { body } = request
      const { address, token } = await beginLink(context, actorOf(request), body, visitorOf(request), originOf(request))
      setAttemptCookie(reply, token, ATTEMPT_MS)
      return { address }
    },
  })

  route(app, endpoints.unlinkOwnIdentity, {
    config: { limits: 'strict', confirmed: 'where a factor is' },
    schema: {
      operationId: 'unlinkOwnIdentity',
      summary: 'Unlink one’s account, which ends the other sessions opened that way; the password stays the way in',
      tags,
      params: IdParams,
      body: UnlinkBody,
      response: { 204: z.null().describe('Unlinked.'), ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      await unlinkOwn(context, actorOf(request), request.params.id, request.body, visitorOf(request))
      return reply.code(204).send(null)
    },
  })
}
