import * as endpoints from '../../contract/notices/endpoints.ts'
import { NoticePage, NoticeQuery, ReadBody, UnreadNotices } from '../../contract/notices/notices.ts'
import { failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { countNotices, findNotices, readNotices } from '../services/read-notices.ts'

export const noticeRoutes: Routes = (app, context) => {
  route(app, endpoints.listNotices, {
    schema: {
      operationId: 'listNotices',
      summary: 'One’s own notices, latest first',
      tags: ['notices'],
      querystring: NoticeQuery,
      response: { 200: NoticePage, ...failures },
    },
    handler: (request) => findNotices(context, actorOf(request), request.query),
  })

  route(app, endpoints.countUnreadNotices, {
    schema: {
      operationId: 'countUnreadNotices',
      summary: 'How many of one’s own notices are unread',
      tags: ['notices'],
      response: { 200: UnreadNotices, ...failures },
    },
    handler: (request) => countNotices(context, actorOf(request)),
  })

  route(app, endpoints.readNotices, {
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
