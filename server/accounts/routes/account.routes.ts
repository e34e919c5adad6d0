import { z } from 'zod'
import { OwnSessionList, PasswordBody, PasswordChanged } from '../../contract/accounts/accounts.ts'
import * as endpoints from '../../contract/accounts/endpoints.ts'
import { IdParams } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, clearSessionCookie, setSessionCookie, visitorOf } from '../../plugins/session.ts'
import { changePassword } from '../services/change-password.ts'
import { endOwnSession, endOwnSessions, findOwnSessions } from '../services/sessions/own-sessions.ts'

const ended = { 204: z.null().describe('Ended.') }

/** One's own account. */
export const accountRoutes: Routes = (app, context) => {
  route(app, endpoints.listOwnSessions, {
    schema: {
      operationId: 'listOwnSessions',
      summary: 'Where one is signed in: here, then last used first; twenty at the most',
      tags: ['account'],
      response: { 200: OwnSessionList, ...failures },
    },
    handler: (request) => findOwnSessions(context, actorOf(request), visitorOf(request)),
  })

  route(app, endpoints.endOwnSessions, {
    schema: {
      operationId: 'endOwnSessions',
      summary: 'Sign out everywhere, here too',
      tags: ['account'],
      response: { ...ended, ...failures },
    },
    handler: async (request, reply) => {
      await endOwnSessions(context, actorOf(request))
      clearSessionCookie(reply)
      return reply.code(204).send(null)
    },
  })

  route(app, endpoints.endOwnSession, {
    schema: {
      operationId: 'endOwnSession',
      summary: 'Sign out somewhere else',
      tags: ['account'],
      params: IdParams,
      response: { ...ended, ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      await endOwnSession(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })

  route(app, endpoints.changePassword, {
    config: { limits: 'strict', confirmed: 'where a factor is' },
    schema: {
      operationId: 'changePassword',
      summary: 'Change one’s own password, which ends all other sessions; the answer sets a new session cookie',
      tags: ['account'],
      body: PasswordBody,
      response: { 200: PasswordChanged, ...failures, ...conflict },
    },
    handler: async (request, reply) => {
      const { ended, ...keys } = await changePassword(context, actorOf(request), request.body, visitorOf(request))
      setSessionCookie(reply, keys)
      return { ended }
    },
  })
}
