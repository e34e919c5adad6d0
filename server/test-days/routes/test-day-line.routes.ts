import { z } from 'zod'
import { holderOfToken } from '../../accounts/services/sessions/holder-of-token.ts'
import { Created, EventStream, IdParams } from '../../contract/common.ts'
import { SecondGradingPage, SecondGradingQuery } from '../../contract/sheets/second-gradings.ts'
import * as endpoints from '../../contract/test-days/endpoints.ts'
import { RunningTestBody, TestDayLine } from '../../contract/test-days/running-tests.ts'
import { SecondGraderBody } from '../../contract/test-days/test-days.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf, visitorOf } from '../../plugins/session.ts'
import { findSecondGradings } from '../../sheets/services/find-second-gradings.ts'
import { followTestDay } from '../services/follow-test-day.ts'
import { endRunningTest, getTestDayLine, reportRunningTest } from '../services/running-tests.ts'
import { setSecondGrader } from '../services/set-second-grader.ts'

/** More than `followTestDay` lasts. */
const LONGEST_STREAM_MS = 660_000

export const testDayLineRoutes: Routes = (app, context) => {
  addWatching(app, context)
  addRunningTests(app, context)
  addSecondGraders(app, context)
}

const addWatching: Routes = (app, context) => {
  route(app, endpoints.getTestDayLine, {
    config: { primary: true },
    schema: {
      operationId: 'getTestDayLine',
      summary: 'Who is booked on a test day, what runs there now, and what was closed',
      tags: ['events'],
      params: IdParams,
      response: { 200: TestDayLine, ...failures, ...notFound },
    },
    handler: (request) => getTestDayLine(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.followTestDayLine, {
    config: { primary: true },
    sse: { kind: 'only' },
    handlerTimeout: LONGEST_STREAM_MS,
    schema: {
      operationId: 'followTestDayLine',
      summary: 'Tells when something changes on a test day (server-sent events)',
      description:
        'A stream of `changed` events without content: whenever one comes, ask for what is shown again. It ends after ten minutes; clients that follow the standard connect again by themselves.',
      tags: ['events'],
      params: IdParams,
      response: { 200: EventStream, ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      const ended = new AbortController()
      reply.sse.onClose(() => ended.abort())
      const actorNow = async () => (await holderOfToken(context, visitorOf(request).sessionToken))?.actor ?? null
      const follow = { actorNow, ended: ended.signal }
      const changes = await followTestDay(context, actorOf(request), request.params.id, follow)
      for await (const _ of changes) {
        if (!reply.sse.isConnected) return // Whoever listened left as something changed.
        await reply.sse.send({ event: 'changed', data: '' })
      }
    },
  })
}

const addRunningTests: Routes = (app, context) => {
  route(app, endpoints.reportRunningTest, {
    schema: {
      operationId: 'reportRunningTest',
      summary: 'Say how a test stands that a device is running; the id is that of its sheet to come',
      tags: ['events'],
      params: IdParams,
      body: RunningTestBody,
      response: { 204: z.null().describe('Heard.'), ...failures },
    },
    handler: async (request, reply) => {
      await reportRunningTest(context, actorOf(request), request.params.id, request.body)
      return reply.code(204).send(null)
    },
  })

  route(app, endpoints.endRunningTest, {
    schema: {
      operationId: 'endRunningTest',
      summary: 'Take a test off the line that will have no sheet',
      tags: ['events'],
      params: IdParams,
      response: { 204: z.null().describe('It runs no more.'), ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      await endRunningTest(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}

const addSecondGraders: Routes = (app, context) => {
  route(app, endpoints.setSecondGrader, {
    schema: {
      operationId: 'setSecondGrader',
      summary: 'Say who grades a booked attempt as the second, independently of the first',
      tags: ['events'],
      params: IdParams,
      body: SecondGraderBody,
      response: { 200: Created.describe('Said.'), ...failures, ...notFound },
    },
    handler: (request) => setSecondGrader(context, actorOf(request), request.params.id, request.body.graderId),
  })

  route(app, endpoints.listSecondGradings, {
    schema: {
      operationId: 'listSecondGradings',
      summary: 'Attempts that two graders graded independently, latest first',
      tags: ['sheets'],
      querystring: SecondGradingQuery,
      response: { 200: SecondGradingPage, ...failures },
    },
    handler: (request) => findSecondGradings(context, actorOf(request), request.query),
  })
}
