import { Welcome, WelcomeBody, WelcomeLookBody } from '../../contract/accounts/accounts.ts'
import { Session } from '../../contract/accounts/session.ts'
import { failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { setSessionCookie, visitorOf } from '../../plugins/session.ts'
import { sessionOf } from '../services/sessions/session-of.ts'
import { acceptLink, lookAtLink } from '../services/welcome.ts'

/** For whoever holds a one-time link; its token comes in the body, so that no address and no log has it. */
export const welcomeRoutes: Routes = (app, context) => {
  app.route({
    method: 'POST',
    url: '/api/welcome/look',
    config: { open: true, pace: 'strict' },
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

  app.route({
    method: 'POST',
    url: '/api/welcome',
    config: { open: true, pace: 'strict' },
    schema: {
      operationId: 'acceptLink',
      summary: 'Choose the password of an account by a one-time link, and sign in; the answer sets the session cookie',
      tags: ['session'],
      security: [],
      body: WelcomeBody,
      response: { 200: Session, ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      const { actor, ...keys } = await acceptLink(context, request.body, visitorOf(request))
      setSessionCookie(reply, keys)
      return sessionOf(context, actor)
    },
  })
}
