import type { ZodTypeProvider } from 'fastify-type-provider-zod'
import { z } from 'zod'
import type { Context } from '../../context/context.ts'
import { IdParams } from '../../contract/common.ts'
import { Problem } from '../../contract/errors.ts'
import * as endpoints from '../../contract/sign-on/endpoints.ts'
import {
  Leave,
  LogoutBody,
  LogoutTaken,
  ProviderAddress,
  ProvidersAnswering,
  SignOnBody,
  SignOnReturn,
} from '../../contract/sign-on/sign-on.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes, ZodApp } from '../../http/routes.ts'
import {
  clearSessionCookie,
  originOf,
  setAttemptCookie,
  setSessionCookie,
  takeAttemptCookie,
  visitorOf,
} from '../../plugins/session.ts'
import { ATTEMPT_MS, beginSignIn } from '../services/begin-sign-on.ts'
import { findAnswering } from '../services/doors.ts'
import { endByProvider } from '../services/end-by-provider.ts'
import { finishSignOn } from '../services/finish-sign-on.ts'
import { leave } from '../services/leave.ts'

const tags = ['sign-on']
const open = { open: true, limits: 'strict' } as const

/** A logout token is some kilobytes. */
const LARGEST_FORM_BYTES = 65_536

const notChecked = { 503: Problem.describe('The keys of the provider cannot be had just now; send it again.') }

/** For whoever comes by a provider, goes by it, or is a provider. */
export const signOnRoutes: Routes = (app, context) => {
  route(app, endpoints.listAnsweringProviders, {
    config: open,
    schema: {
      operationId: 'listAnsweringProviders',
      summary: 'Which providers of single sign-on answer just now',
      tags,
      security: [],
      response: { 200: ProvidersAnswering, ...failures },
    },
    handler: () => findAnswering(context),
  })

  route(app, endpoints.beginSignOn, {
    config: open,
    schema: {
      operationId: 'beginSignOn',
      summary: 'Where the browser goes to sign in; the answer sets a cookie that knows it when it comes back',
      tags,
      security: [],
      body: SignOnBody,
      response: { 200: ProviderAddress, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      const { address, token } = await beginSignIn(context, request.body, visitorOf(request), originOf(request))
      setAttemptCookie(reply, token, ATTEMPT_MS)
      return { address }
    },
  })

  addReturn(app, context)
  addEnds(app, context)
}

function addReturn(app: ZodApp, context: Context): void {
  route(app, endpoints.returnFromProvider, {
    config: open,
    schema: {
      operationId: 'returnFromProvider',
      summary: 'Where a provider sends a browser back to; it goes on to a page of ours, signed in or told why not',
      tags,
      security: [],
      params: IdParams,
      querystring: SignOnReturn,
      response: { 302: z.null().describe('On to a page of ours.'), ...failures },
    },
    handler: async (request, reply) => {
      const { path, keys } = await finishSignOn(context, {
        providerId: request.params.id,
        search: new URL(request.url, 'http://here.invalid').search,
        token: takeAttemptCookie(request, reply),
        visitor: visitorOf(request),
      })
      if (keys) setSessionCookie(reply, keys)
      return reply.header('referrer-policy', 'no-referrer').code(302).header('location', path).send(null)
    },
  })
}

function addEnds(app: ZodApp, context: Context): void {
  route(app, endpoints.leave, {
    config: { open: true },
    schema: {
      operationId: 'leave',
      summary: 'Sign out; the answer says where the provider that signed one in ends its own session',
      tags,
      security: [],
      response: { 200: Leave, ...failures },
    },
    handler: async (request, reply) => {
      const left = await leave(context, visitorOf(request))
      clearSessionCookie(reply)
      return left
    },
  })

  // Only here is a form taken: a provider sends one, without a browser.
  app.register(async (only) => {
    only.addContentTypeParser(
      'application/x-www-form-urlencoded',
      { parseAs: 'string', bodyLimit: LARGEST_FORM_BYTES },
      (_request, text, done) => done(null, Object.fromEntries(new URLSearchParams(String(text)))),
    )
    addLogout(only.withTypeProvider<ZodTypeProvider>(), context)
  })
}

function addLogout(app: ZodApp, context: Context): void {
  route(app, endpoints.endByProvider, {
    config: open,
    schema: {
      operationId: 'endByProvider',
      summary: 'For a provider: somebody signed out there, so the sessions it opened for them end here',
      tags,
      security: [],
      consumes: ['application/x-www-form-urlencoded'],
      params: IdParams,
      body: LogoutBody,
      response: { 200: LogoutTaken, ...failures, ...notFound, ...notChecked },
    },
    handler: async (request) => {
      const { address } = visitorOf(request)
      await endByProvider(context, request.params.id, request.body.logout_token, address)
      return { taken: true as const }
    },
  })
}
