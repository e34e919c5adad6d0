import { z } from 'zod'
import * as endpoints from '../../contract/accounts/endpoints.ts'
import { MadeToken, ScriptTokenList, TokenBody } from '../../contract/accounts/tokens.ts'
import { IdParams } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findOwnTokens, makeToken, revokeToken } from '../services/tokens/own-tokens.ts'

/** One's own tokens for scripts. No token answers here: it takes a session. */
export const tokenRoutes: Routes = (app, context) => {
  route(app, endpoints.listOwnTokens, {
    schema: {
      operationId: 'listOwnTokens',
      summary: 'One’s tokens for scripts, by name; twenty at the most',
      tags: ['account'],
      response: { 200: ScriptTokenList, ...failures },
    },
    handler: (request) => findOwnTokens(context, actorOf(request)),
  })

  route(app, endpoints.makeToken, {
    config: { limits: 'strict', confirmed: true },
    schema: {
      operationId: 'makeToken',
      summary: 'Make a token for a script; the answer has it, once',
      tags: ['account'],
      body: TokenBody,
      response: { 201: MadeToken, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => reply.code(201).send(await makeToken(context, actorOf(request), request.body)),
  })

  route(app, endpoints.revokeToken, {
    schema: {
      operationId: 'revokeToken',
      summary: 'Revoke a token; scripts that use it are refused at once',
      tags: ['account'],
      params: IdParams,
      response: { 204: z.null().describe('Revoked.'), ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      await revokeToken(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}
