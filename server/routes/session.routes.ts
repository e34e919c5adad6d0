import { z } from 'zod'
import { Created } from '../contract/common.ts'
import { Session, SetupBody, SignInBody } from '../contract/session.ts'
import { actorOf, SESSION_COOKIE } from '../plugins/session.ts'
import { signIn, signOut } from '../services/accounts/sign-in.ts'
import { makeFirstAccount } from '../services/setup/make-first-account.ts'
import { conflict, failures } from './failures.ts'
import type { Routes } from './routes.ts'

const COOKIE = { path: '/', httpOnly: true, sameSite: 'strict', secure: 'auto' } as const

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
      const { token, actor } = await signIn(context, request.body)
      reply.setCookie(SESSION_COOKIE, token, COOKIE)
      return { ...actor, roles: [...actor.roles] }
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
    handler: async (request) => {
      const actor = actorOf(request)
      return { ...actor, roles: [...actor.roles] }
    },
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
      await signOut(context, request.cookies[SESSION_COOKIE])
      return reply.clearCookie(SESSION_COOKIE, COOKIE).code(204).send(null)
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
