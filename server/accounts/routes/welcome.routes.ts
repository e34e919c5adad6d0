import { Welcome, WelcomeBody, WelcomeLookBody } from '../../contract/accounts/accounts.ts'
import * as endpoints from '../../contract/accounts/endpoints.ts'
import { FactorAsked } from '../../contract/accounts/factors.ts'
import { Session } from '../../contract/accounts/session.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { answerFirstStep } from '../../plugins/answer-first-step.ts'
import { visitorOf } from '../../plugins/session.ts'
import { acceptLink, lookAtLink } from '../services/welcome.ts'

/** For whoever holds a one-time link; its token comes in the body, so that no address and no log has it. */
export const welcomeRoutes: Routes = (app, context) => {
  route(app, endpoints.lookAtLink, {
    config: { open: true, limits: 'strict' },
    schema: {
      operationId: 'lookAtLink',
      summary: 'Whose password a one-time link chooses',
      tags: ['session'],
      security: [],
      body: WelcomeLookBody,
      response: { 200: Welcome, ...failures, ...notFound },
    },
    handler: (request) => lookAtLink(context, request.body.token),
  })

  route(app, endpoints.acceptLink, {
    config: { open: true, limits: 'strict' },
    schema: {
      operationId: 'acceptLink',
      summary:
        'Choose the password of an account by a one-time link, and sign in; the answer sets the session cookie, or asks for the second factor',
      tags: ['session'],
      security: [],
      body: WelcomeBody,
      response: { 200: Session, 202: FactorAsked, ...failures, ...notFound },
    },
    handler: async (request, reply) =>
      answerFirstStep(context, reply, await acceptLink(context, request.body, visitorOf(request))),
  })
}
