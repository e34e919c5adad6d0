import { Created, IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/sign-on/endpoints.ts'
import {
  FoldBody,
  ProviderBody,
  ProviderList,
  ProviderTest,
  Trial,
  TrialBody,
} from '../../contract/sign-on/providers.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findProviders, foldPasswords, putProvider } from '../services/providers.ts'
import { testStoredProvider } from '../services/test-stored-provider.ts'
import { tryRules } from '../services/try-rules.ts'

const tags = ['sign-on']

/** The providers of single sign-on; for administrators. For others there is nothing at these addresses. */
export const providerRoutes: Routes = (app, context) => {
  route(app, endpoints.listProviders, {
    schema: {
      operationId: 'listProviders',
      summary: 'The providers of single sign-on, by name, without their secrets',
      tags,
      response: { 200: ProviderList, ...failures, ...notFound },
    },
    handler: (request) => findProviders(context, actorOf(request)),
  })

  route(app, endpoints.putProvider, {
    config: { confirmed: true },
    schema: {
      operationId: 'putProvider',
      summary: 'Add a provider under an id of one’s own, or change it; it holds from the next sign-in on',
      tags,
      params: IdParams,
      body: ProviderBody,
      response: { 200: Created, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => putProvider(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.testProvider, {
    config: { limits: 'strict' },
    schema: {
      operationId: 'testProvider',
      summary: 'Ask a provider what it is, and say in words what is wrong',
      tags,
      params: IdParams,
      response: { 200: ProviderTest, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => testStoredProvider(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.tryRules, {
    schema: {
      operationId: 'tryRules',
      summary: 'What would come of a first sign-in with a sample of claims; nothing of it is kept',
      tags,
      body: TrialBody,
      response: { 200: Trial, ...failures, ...notFound },
    },
    handler: (request) => tryRules(context, actorOf(request), request.body),
  })

  route(app, endpoints.foldPasswords, {
    config: { confirmed: true },
    schema: {
      operationId: 'foldPasswords',
      summary: 'Put name and password on the sign-in page behind a line to open, or show them; they let in either way',
      tags,
      body: FoldBody,
      response: { 200: FoldBody, ...failures, ...notFound },
    },
    handler: async (request) => {
      await foldPasswords(context, actorOf(request), request.body.foldsPasswords)
      return request.body
    },
  })
}
