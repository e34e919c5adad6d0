import { z } from 'zod'
import { Session, SetupBody, SignInBody } from '../../contract/accounts/session.ts'
import { Created } from '../../contract/common.ts'
import { conflict, failures } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, clearSessionCookie, setSessionCookie, visitorOf } from '../../plugins/session.ts'
import { sessionOf } from '../services/sessions/session-of.ts'
import { signIn } from '../services/sessions/sign-in.ts'
import { signOut } from '../services/sessions/sign-out.ts'
import { makeFirstAccount } from '../services/setup/make-first-account.ts'

export const sessionRoutes: Routes = (app, context) => {
  app.route({
    method: 'POST',
    url: '/api/session',
    config: { open: true },
    schema: {
      operationId: 'signIn',
      summary: 'Sign in; the answer sets the session cookie',
      tags: ['session'],
      security: [],
      body: SignInBody,
      response: { 200: Session, ...failures },
    },
    handler: async (request, reply) => {
      const { actor, ...keys } = await signIn(context, request.body, visitorOf(request))
      setSessionCookie(reply, keys)
      return sessionOf(context, actor)
    },
  })

  app.route({
    method: 'GET',
    url: '/api/session',
    schema: {
      operationId: 'whoAmI',
      summary: 'Who is signed in',
      tags: ['session'],
      response: { 200: Session, ...failures },
    },
    handler: (request) => sessionOf(context, actorOf(request)),
  })

  app.route({
    method: 'DELETE',
    url: '/api/session',
    config: { open: true },
    schema: {
      operationId: 'signOut',
      summary: 'Sign out',
      tags: ['session'],
      security: [],
      response: { 204: z.null().describe('Signed out.'), ...failures },
    },
    handler: async (request, reply) => {
      await signOut(context, visitorOf(request))
      clearSessionCookie(reply)
      return reply.code(204).send(null)
    },
  })

  app.route({
    method: 'POST',
    url: '/api/setup',
    config: { open: true },
    schema: {
      operationId: 'makeFirstAccount',
      summary: 'Make the first account from the one-time link that the server printed',
      tags: ['session'],
      security: [],
      body: SetupBody,
      response: { 201: Created, ...failures, ...conflict },
    },
    handler: async (request, reply) => reply.code(201).send(await makeFirstAccount(context, request.body)),
  })
}
