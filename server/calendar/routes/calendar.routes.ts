import { z } from 'zod'
import { CalendarLink, CalendarLinkState } from '../../contract/calendar/calendar.ts'
import * as endpoints from '../../contract/calendar/endpoints.ts'
import { FileAnswer } from '../../contract/common.ts'
import { failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { sendFile } from '../../http/send-file.ts'
import { actorOf } from '../../plugins/session.ts'
import { getCalendarLink, makeCalendarLink, revokeCalendarLink } from '../services/own-calendar-link.ts'
import { readCalendar } from '../services/read-calendar.ts'
import { getTestDayCalendar } from '../services/test-day-calendar.ts'

const CALENDAR = 'text/calendar; charset=utf-8'

export const calendarRoutes: Routes = (app, context) => {
  route(app, endpoints.getCalendarLink, {
    schema: {
      operationId: 'getCalendarLink',
      summary: 'Whether one has a calendar link, and since when',
      tags: ['account'],
      response: { 200: CalendarLinkState, ...failures },
    },
    handler: (request) => getCalendarLink(context, actorOf(request)),
  })

  route(app, endpoints.makeCalendarLink, {
    schema: {
      operationId: 'makeCalendarLink',
      summary: 'Make a secret calendar link, told this once; an earlier one ends',
      tags: ['account'],
      response: { 201: CalendarLink, ...failures },
    },
    handler: async (request, reply) => reply.code(201).send(await makeCalendarLink(context, actorOf(request))),
  })

  route(app, endpoints.revokeCalendarLink, {
    schema: {
      operationId: 'revokeCalendarLink',
      summary: 'End one’s calendar link',
      tags: ['account'],
      response: { 204: z.null().describe('Ended.'), ...failures },
    },
    handler: async (request, reply) => {
      await revokeCalendarLink(context, actorOf(request))
      return reply.code(204).send(null)
    },
  })

  route(app, endpoints.getTestDayCalendar, {
    config: { token: 'test-days:read' },
    schema: {
      operationId: 'getTestDayCalendar',
      summary: 'Test days from two months back to a year ahead, as an iCalendar file',
      tags: ['events'],
      response: { 200: FileAnswer, ...failures },
    },
    handler: async (request, reply) => {
      const origin = `${request.protocol}://${request.host}`
      const text = await getTestDayCalendar(context, actorOf(request), origin)
      return sendFile(reply, { name: 'test-days.ics', type: CALENDAR, content: Buffer.from(text) })
    },
  })

  // Read by calendar programs, which have no session: the address itself is the secret.
  app.route({
    method: 'GET',
    url: '/calendar/:token.ics',
    config: { open: true, limits: 'strict' },
    schema: { hide: true, params: z.object({ token: z.string() }) },
    handler: async (request, reply) => {
      const origin = `${request.protocol}://${request.host}`
      const text = await readCalendar(context, request.params.token, origin)
      return reply
        .header('content-type', CALENDAR)
        .header('cache-control', 'private, no-cache')
        .header('referrer-policy', 'no-referrer')
        .send(text)
    },
  })
}
