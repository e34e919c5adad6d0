import { z } from 'zod'
import * as endpoints from '../../contract/accounts/endpoints.ts'
import {
  AppCodeBody,
  FactorAdded,
  NewApp,
  OwnFactors,
  PasskeyBody,
  PasskeyCreation,
  RecoveryCodes,
} from '../../contract/accounts/factors.ts'
import { IdParams } from '../../contract/common.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, visitorOf } from '../../plugins/session.ts'
import { siteOf } from '../../plugins/site-of.ts'
import { beginApp, confirmNewApp } from '../services/factors/add-app.ts'
import { findOwnFactors, knowOfReset, makeRecoveryCodes, removeApp } from '../services/factors/own-factors.ts'
import { addPasskey, beginPasskey, removePasskey } from '../services/factors/own-passkeys.ts'

const tags = ['account']
const adds = { limits: 'strict', confirmed: true, enrolling: true } as const
const gone = { 204: z.null().describe('Taken away.') }

/** One's own second factors. */
export const factorRoutes: Routes = (app, context) => {
  route(app, endpoints.listOwnFactors, {
    config: { enrolling: true },
    schema: {
      operationId: 'listOwnFactors',
      summary: 'One’s second factors, and whether one needs any',
      tags,
      response: { 200: OwnFactors, ...failures },
    },
    handler: (request) => findOwnFactors(context, actorOf(request), siteOf(request, context)),
  })

  route(app, endpoints.beginApp, {
    config: adds,
    schema: {
      operationId: 'beginApp',
      summary: 'Make the key of a new authenticator app; the answer has it, once',
      tags,
      response: { 201: NewApp, ...failures, ...conflict },
    },
    handler: async (request, reply) => reply.code(201).send(await beginApp(context, actorOf(request))),
  })

  route(app, endpoints.confirmNewApp, {
    config: adds,
    schema: {
      operationId: 'confirmNewApp',
      summary: 'Give the first code of the new app, which counts from then on',
      tags,
      body: AppCodeBody,
      response: { 200: FactorAdded, ...failures, ...conflict },
    },
    handler: (request) => confirmNewApp(context, actorOf(request), request.body.code, visitorOf(request)),
  })

  route(app, endpoints.removeApp, {
    config: { confirmed: true },
    schema: {
      operationId: 'removeApp',
      summary: 'Take the authenticator app away',
      tags,
      response: { ...gone, ...failures, ...conflict },
    },
    handler: async (request, reply) => {
      await removeApp(context, actorOf(request))
      return reply.code(204).send(null)
    },
  })

  route(app, endpoints.makeRecoveryCodes, {
    config: { limits: 'strict', confirmed: true },
    schema: {
      operationId: 'makeRecoveryCodes',
      summary: 'Make ten new recovery codes in place of those before; the answer has them, once',
      tags,
      response: { 201: RecoveryCodes, ...failures, ...conflict },
    },
    handler: async (request, reply) => reply.code(201).send(await makeRecoveryCodes(context, actorOf(request))),
  })

  route(app, endpoints.beginPasskey, {
    config: adds,
    schema: {
      operationId: 'beginPasskey',
      summary: 'What a browser is to make a passkey of, once and within five minutes',
      tags,
      response: { 200: PasskeyCreation, ...failures, ...conflict },
    },
    handler: (request) => beginPasskey(context, actorOf(request), visitorOf(request), siteOf(request, context)),
  })

  route(app, endpoints.addPasskey, {
    config: adds,
    schema: {
      operationId: 'addPasskey',
      summary: 'Add the passkey that the browser made',
      tags,
      body: PasskeyBody,
      response: { 201: FactorAdded, ...failures, ...conflict },
    },
    handler: async (request, reply) => {
      const where = { visitor: visitorOf(request), site: siteOf(request, context) }
      return reply.code(201).send(await addPasskey(context, actorOf(request), request.body, where))
    },
  })

  route(app, endpoints.removePasskey, {
    config: { confirmed: true },
    schema: {
      operationId: 'removePasskey',
      summary: 'Take a passkey away',
      tags,
      params: IdParams,
      response: { ...gone, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      await removePasskey(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })

  route(app, endpoints.knowOfReset, {
    config: { enrolling: true },
    schema: {
      operationId: 'knowOfReset',
      summary: 'Say that one knows that one’s second factors were taken away; it is told no longer',
      tags,
      response: { 204: z.null().describe('Known.'), ...failures },
    },
    handler: async (request, reply) => {
      await knowOfReset(context, actorOf(request))
      return reply.code(204).send(null)
    },
  })
}
