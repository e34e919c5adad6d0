import { z } from 'zod'
import * as endpoints from '../../contract/accounts/endpoints.ts'
import { FactorAsked } from '../../contract/accounts/factors.ts'
import { Session, SetupBody, SignInBody } from '../../contract/accounts/session.ts'
import { Created } from '../../contract/common.ts'
import { conflict, failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { answerFirstStep } from '../../plugins/answer-first-step.ts'
import { actorOf, clearSessionCookie, visitorOf } from '../../plugins/session.ts'
import { sessionOf } from '../services/sessions/session-of.ts'
import { signIn } from '../services/sessions/sign-in.ts'
import { signOut } from '../services/sessions/sign-out.ts'
import { makeFirstAccount } from '../services/setup/make-first-account.ts'

export const sessionRoutes: Routes = (app, context) => {
  route(app, endpoints.signIn, {
    config: { open: true },
    schema: {
      operationId: 'signIn',
      summary: 'Sign in; the answer sets the session cookie, or asks for the second factor',
      tags: ['session'],
      security: [],
      body: SignInBody,
      response: { 200: Session, 202: FactorAsked, ...failures },
    },
    handler: async (request, reply) =>
      answerFirstStep(context, reply, await signIn(context, request.body, visitorOf(request))),
  })

  route(app, endpoints.whoAmI, {
    config: { enrolling: true },
    schema: {
      operationId: 'whoAmI',
      summary: 'Who is signed in',
      tags: ['session'],
      response: { 200: Session, ...failures },
    },
    handler: (request) => sessionOf(context, actorOf(request), request.onlyEnrols),
  })

  route(app, endpoints.signOut, {
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

  route(app, endpoints.makeFirstAccount, {
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
