import * as endpoints from '../../contract/accounts/endpoints.ts'
import { FactorBody, PasskeyRequest, PasskeySignInBody } from '../../contract/accounts/factors.ts'
import { Session } from '../../contract/accounts/session.ts'
import { conflict, failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { setHalfCookie, setSessionCookie, visitorOf } from '../../plugins/session.ts'
import { siteOf } from '../../plugins/site-of.ts'
import {
  askForPasskey,
  askForPasskeyAlone,
  finishSignIn,
  signInByPasskey,
} from '../services/sessions/finish-sign-in.ts'
import { sessionOf } from '../services/sessions/session-of.ts'

const tags = ['session']
const open = { open: true, limits: 'strict' } as const

/** The second step of a sign-in, and the passkey that stands for both. */
export const secondStepRoutes: Routes = (app, context) => {
  route(app, endpoints.finishSignIn, {
    config: open,
    schema: {
      operationId: 'finishSignIn',
      summary: 'Give the second factor, after the password; the answer sets the session cookie',
      tags,
      security: [],
      body: FactorBody,
      response: { 200: Session, ...failures, ...conflict },
    },
    handler: async (request, reply) => {
      const site = siteOf(request, context)
      const { actor, ...keys } = await finishSignIn(context, request.body, visitorOf(request), site)
      setHalfCookie(reply, null)
      setSessionCookie(reply, keys)
      return sessionOf(context, actor, false)
    },
  })

  route(app, endpoints.askForPasskey, {
    config: open,
    schema: {
      operationId: 'askForPasskey',
      summary: 'What a passkey is to sign as the second factor, once and within five minutes',
      tags,
      security: [],
      response: { 200: PasskeyRequest, ...failures, ...conflict },
    },
    handler: (request) => askForPasskey(context, visitorOf(request), siteOf(request, context)),
  })

  route(app, endpoints.askForPasskeyAlone, {
    config: open,
    schema: {
      operationId: 'askForPasskeyAlone',
      summary: 'What a passkey is to sign instead of name and password, once and within five minutes',
      tags,
      security: [],
      response: { 200: PasskeyRequest, ...failures, ...conflict },
    },
    handler: (request) => askForPasskeyAlone(context, siteOf(request, context)),
  })

  route(app, endpoints.signInByPasskey, {
    config: open,
    schema: {
      operationId: 'signInByPasskey',
      summary: 'Sign in by a passkey alone, which has verified its owner; the answer sets the session cookie',
      tags,
      security: [],
      body: PasskeySignInBody,
      response: { 200: Session, ...failures, ...conflict },
    },
    handler: async (request, reply) => {
      const site = siteOf(request, context)
      const { actor, ...keys } = await signInByPasskey(context, request.body.passkey, visitorOf(request), site)
      setSessionCookie(reply, keys)
      return sessionOf(context, actor, false)
    },
  })
}
