import { z } from 'zod'
import { actorOfToken } from '../../accounts/services/sessions/actor-of-token.ts'
import { Created, Page, Uuid } from '../../contract/common.ts'
import { SecondGradingPage } from '../../contract/sheets/second-gradings.ts'
import { RunningTestBody, TestDayLine } from '../../contract/test-days/running-tests.ts'
import { SecondGraderBody } from '../../contract/test-days/test-days.ts'
import { failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, visitorOf } from '../../plugins/session.ts'
import { findSecondGradings } from '../../sheets/services/find-second-gradings.ts'
import { followTestDay } from '../services/follow-test-day.ts'
import { endRunningTest, getTestDayLine, reportRunningTest } from '../services/running-tests.ts'
import { setSecondGrader } from '../services/set-second-grader.ts'

const ById = z.strictObject({ id: Uuid })

/** More than `followTestDay` lasts. */
const LONGEST_STREAM_MS = 660_000

export const testDayLineRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/test-days/:id/line',
    schema: {
      operationId: 'getTestDayLine',
      summary: 'Who is booked on a test day, what runs there now, and what was closed',
      tags: ['events'],
      params: ById,
      response: { 200: TestDayLine, ...failures, ...notFound },
    },
    handler: (request) => getTestDayLine(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'GET',
    url: '/api/test-days/:id/line/changes',
    sse: { kind: 'only' },
    handlerTimeout: LONGEST_STREAM_MS,
    schema: {
      operationId: 'followTestDayLine',
      summary: 'Tells when something changes on a test day (server-sent events)',
      description:
        'A stream of `changed` events without content: whenever one comes, ask for what is shown again. It ends after ten minutes; clients that follow the standard connect again by themselves.',
      tags: ['events'],
      params: ById,
      response: { 200: z.string().describe('text/event-stream'), ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      const ended = new AbortController()
      reply.sse.onClose(() => ended.abort())
      const actorNow = () => actorOfToken(context, visitorOf(request).sessionToken)
      const follow = { actorNow, ended: ended.signal }
      const changes = await followTestDay(context, actorOf(request), request.params.id, follow)
      for await (const _ of changes) await reply.sse.send({ event: 'changed', data: '' })
    },
  })

  app.route({
    method: 'POST',
    url: '/api/bookings/:id/second-grader',
    schema: {
      operationId: 'setSecondGrader',
      summary: 'Say who grades a booked attempt as the second, independently of the first',
      tags: ['events'],
      params: ById,
      body: SecondGraderBody,
      response: { 200: Created.describe('Said.'), ...failures, ...notFound },
    },
    handler: (request) => setSecondGrader(context, actorOf(request), request.params.id, request.body.graderId),
  })

  app.route({
    method: 'GET',
    url: '/api/second-gradings',
    schema: {
      operationId: 'listSecondGradings',
      summary: 'Attempts that two graders graded independently, latest first',
      tags: ['sheets'],
      querystring: z.strictObject({
        ...Page,
        differing: z.enum(['true', 'false']).default('false').describe('Only those that differ in outcome.'),
      }),
      response: { 200: SecondGradingPage, ...failures },
    },
    handler: (request) => findSecondGradings(context, actorOf(request), request.query),
  })

  app.route({
    method: 'PUT',
    url: '/api/running-tests/:id',
    schema: {
      operationId: 'reportRunningTest',
      summary: 'Say how a test stands that a device is running; the id is that of its sheet to come',
      tags: ['events'],
      params: ById,
      body: RunningTestBody,
      response: { 204: z.null().describe('Heard.'), ...failures },
    },
    handler: async (request, reply) => {
      await reportRunningTest(context, actorOf(request), request.params.id, request.body)
      return reply.code(204).send(null)
    },
  })

  app.route({
    method: 'DELETE',
    url: '/api/running-tests/:id',
    schema: {
      operationId: 'endRunningTest',
      summary: 'Take a test off the line that will have no sheet',
      tags: ['events'],
      params: ById,
      response: { 204: z.null().describe('It runs no more.'), ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      await endRunningTest(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}
