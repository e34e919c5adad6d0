import { z } from 'zod'
import * as endpoints from '../../contract/notices/endpoints.ts'
import { PushSettingBody, PushState, PushSubscriptionBody } from '../../contract/notices/push.ts'
import { conflict, failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, sessionHashOf } from '../../plugins/session.ts'
import { changePush, getPush, subscribe, unsubscribe } from '../services/push/own-push.ts'

/** Notifications outside the pages, by Web Push. */
export const pushRoutes: Routes = (app, context) => {
  route(app, endpoints.getPush, {
    schema: {
      operationId: 'getPush',
      summary: 'Whether notifications are sent, and which of one’s browsers take them',
      tags: ['account'],
      response: { 200: PushState, ...failures },
    },
    handler: (request) => getPush(context, actorOf(request), sessionHashOf(request)),
  })

  route(app, endpoints.changePush, {
    schema: {
      operationId: 'changePush',
      summary: 'Turn notifications on or off for the unit',
      tags: ['account'],
      body: PushSettingBody,
      response: { 200: PushState, ...failures, ...conflict },
    },
    handler: async (request) => {
      await changePush(context, actorOf(request), request.body)
      return getPush(context, actorOf(request), sessionHashOf(request))
    },
  })

  route(app, endpoints.subscribeToPush, {
    schema: {
      operationId: 'subscribeToPush',
      summary: 'Have notifications sent to this browser, until one signs out in it',
      tags: ['account'],
      body: PushSubscriptionBody,
      response: { 200: PushState, ...failures, ...conflict },
    },
    handler: async (request) => {
      await subscribe(context, actorOf(request), sessionHashOf(request), request.body)
      return getPush(context, actorOf(request), sessionHashOf(request))
    },
  })

  route(app, endpoints.unsubscribeFromPush, {
    schema: {
      operationId: 'unsubscribeFromPush',
      summary: 'Send no more notifications to this browser',
      tags: ['account'],
      response: { 204: z.null(), ...failures },
    },
    handler: async (request, reply) => {
      await unsubscribe(context, sessionHashOf(request))
      return reply.code(204).send(null)
    },
  })
}
