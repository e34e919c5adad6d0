import { z } from 'zod'
import { MadeToken, ScriptTokenList, TokenBody } from '../../contract/accounts/tokens.ts'
import { Uuid } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, visitorOf } from '../../plugins/session.ts'
import { findOwnTokens, makeToken, revokeToken } from '../services/tokens/own-tokens.ts'

/** One's own tokens for scripts. No token answers here: it takes a session. */
export const tokenRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/account/tokens',
    schema: {
      operationId: 'listOwnTokens',
      summary: 'One’s tokens for scripts, by name; twenty at the most',
      tags: ['account'],
      response: { 200: ScriptTokenList, ...failures },
    },
    handler: (request) => findOwnTokens(context, actorOf(request)),
  })

  app.route({
    method: 'POST',
    url: '/api/account/tokens',
    config: { pace: 'strict' },
    schema: {
      operationId: 'makeToken',
      summary: 'Make a token for a script; the answer has it, once',
      tags: ['account'],
      body: TokenBody,
      response: { 201: MadeToken, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await makeToken(context, actorOf(request), request.body, visitorOf(request))),
  })

  app.route({
    method: 'DELETE',
    url: '/api/account/tokens/:id',
    schema: {
      operationId: 'revokeToken',
      summary: 'Revoke a token; scripts that use it are refused at once',
      tags: ['account'],
      params: z.object({ id: Uuid }),
      response: { 204: z.null().describe('Revoked.'), ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      await revokeToken(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}
