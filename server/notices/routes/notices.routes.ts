import { z } from 'zod'
import { Page } from '../../contract/common.ts'
import { NoticePage, ReadBody, UnreadNotices } from '../../contract/notices/notices.ts'
import { failures } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { countNotices, findNotices, readNotices } from '../services/read-notices.ts'

export const noticeRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/notices',
    schema: {
      operationId: 'listNotices',
      summary: 'One’s own notices, latest first',
      tags: ['notices'],
      querystring: z.strictObject({ ...Page, unread: z.enum(['true', 'false']).default('false') }),
      response: { 200: NoticePage, ...failures },
    },
    handler: (request) => findNotices(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/notices/unread',
    schema: {
      operationId: 'countUnreadNotices',
      summary: 'How many of one’s own notices are unread',
      tags: ['notices'],
      response: { 200: UnreadNotices, ...failures },
    },
    handler: (request) => countNotices(context, actorOf(request)),
  })

  app.route({
    method: 'POST',
    url: '/api/notices/read',
    schema: {
      operationId: 'readNotices',
      summary: 'Mark some or all of one’s own notices as read',
      tags: ['notices'],
      body: ReadBody,
      response: { 200: UnreadNotices, ...failures },
    },
    handler: (request) => readNotices(context, actorOf(request), request.body.ids),
  })
}
