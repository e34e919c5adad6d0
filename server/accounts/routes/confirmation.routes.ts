import * as endpoints from '../../contract/accounts/endpoints.ts'
import { Confirmation, ConfirmationBody, PasskeyRequest } from '../../contract/accounts/factors.ts'
import { conflict, failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, visitorOf } from '../../plugins/session.ts'
import { siteOf } from '../../plugins/site-of.ts'
import { askToConfirmByPasskey, confirmIdentity, findConfirmation } from '../services/confirmation.ts'

const tags = ['account']

/** Showing once more who one is, before what cannot be undone: what answers 403 `confirm-identity` is done after it. */
export const confirmationRoutes: Routes = (app, context) => {
  route(app, endpoints.howToConfirm, {
    config: { enrolling: true },
    schema: {
      operationId: 'howToConfirm',
      summary: 'With what one can show who one is, and until when one has',
      tags,
      response: { 200: Confirmation, ...failures },
    },
    handler: (request) => findConfirmation(context, actorOf(request), visitorOf(request)),
  })

  route(app, endpoints.confirmIdentity, {
    config: { limits: 'strict', enrolling: true },
    schema: {
      operationId: 'confirmIdentity',
      summary: 'Show who one is: by the second factor, or the password where there is none; holds ten minutes, here',
      tags,
      body: ConfirmationBody,
      response: { 200: Confirmation, ...failures, ...conflict },
    },
    handler: (request) =>
      confirmIdentity(context, actorOf(request), request.body, {
        visitor: visitorOf(request),
        site: siteOf(request, context),
      }),
  })

  route(app, endpoints.askToConfirmByPasskey, {
    config: { limits: 'strict', enrolling: true },
    schema: {
      operationId: 'askToConfirmByPasskey',
      summary: 'What a passkey is to sign to show who one is, once and within five minutes',
      tags,
      response: { 200: PasskeyRequest, ...failures, ...conflict },
    },
    handler: (request) =>
      askToConfirmByPasskey(context, actorOf(request), visitorOf(request), siteOf(request, context)),
  })
}
