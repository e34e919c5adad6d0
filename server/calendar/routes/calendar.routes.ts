import { z } from 'zod'
import { CalendarLink, CalendarLinkState } from '../../contract/calendar/calendar.ts'
import { failures } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getCalendarLink, makeCalendarLink, revokeCalendarLink } from '../services/own-calendar-link.ts'
import { readCalendar } from '../services/read-calendar.ts'

export const calendarRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/account/calendar',
    schema: {
      operationId: 'getCalendarLink',
      summary: 'Whether one has a calendar link, and since when',
      tags: ['account'],
      response: { 200: CalendarLinkState, ...failures },
    },
    handler: (request) => getCalendarLink(context, actorOf(request)),
  })

  app.route({
    method: 'POST',
    url: '/api/account/calendar',
    schema: {
      operationId: 'makeCalendarLink',
      summary: 'Make a secret calendar link, told this once; an earlier one ends',
      tags: ['account'],
      response: { 201: CalendarLink, ...failures },
    },
    handler: async (request, reply) => reply.code(201).send(await makeCalendarLink(context, actorOf(request))),
  })

  app.route({
    method: 'DELETE',
    url: '/api/account/calendar',
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

  // Read by calendar programs, which have no session: the address itself is the secret.
  app.route({
    method: 'GET',
    url: '/calendar/:token.ics',
    config: { open: true, pace: 'strict' },
    schema: { hide: true, params: z.object({ token: z.string() }) },
    handler: async (request, reply) => {
      const origin = `${request.protocol}://${request.host}`
      const text = await readCalendar(context, request.params.token, origin)
      return reply
        .header('content-type', 'text/calendar; charset=utf-8')
        .header('cache-control', 'private, no-cache')
        .header('referrer-policy', 'no-referrer')
        .send(text)
    },
  })
}
