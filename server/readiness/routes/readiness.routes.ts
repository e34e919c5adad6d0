import { z } from 'zod'
import { Code, Page, PlainDate, Uuid } from '../../contract/common.ts'
import { LapsePage, ReadinessTrend, TrendQuery } from '../../contract/readiness/readiness.ts'
import { Requirements } from '../../contract/readiness/requirements.ts'
import { Readiness, ReadinessSort } from '../../contract/standards/certifications.ts'
import { failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findLapses } from '../services/lapses.ts'
import { getReadiness } from '../services/readiness.ts'
import { getReadinessTrend } from '../services/readiness-trend.ts'
import { findRequirements } from '../services/requirements.ts'

const UnitOnDay = { ...Page, asOf: PlainDate.optional(), unitId: Uuid.optional() }

export const readinessRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/readiness',
    config: { token: 'readiness:read' },
    schema: {
      operationId: 'getReadiness',
      summary: 'Who of a unit can stand as of a day',
      tags: ['dashboards'],
      querystring: z.strictObject({
        ...UnitOnDay,
        certification: Code.optional(),
        sort: ReadinessSort.optional().describe('Left out: by roster number.'),
        standing: z
          .enum(['can', 'cannot'])
          .optional()
          .describe('Only who can stand, or only who cannot though they must or have begun. The counts stay of all.'),
      }),
      response: { 200: Readiness, ...failures, ...notFound },
    },
    handler: (request) => getReadiness(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/readiness/trend',
    schema: {
      operationId: 'getReadinessTrend',
      summary: 'Of those required, how many were certified at the end of each month',
      tags: ['dashboards'],
      querystring: TrendQuery,
      response: { 200: ReadinessTrend, ...failures, ...notFound },
    },
    handler: (request) => getReadinessTrend(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/readiness/lapses',
    config: { token: 'readiness:read' },
    schema: {
      operationId: 'listLapses',
      summary: 'Who is certified today and lapses by a day unless they renew, the first to lapse first',
      tags: ['dashboards'],
      querystring: z.strictObject({
        ...Page,
        unitId: Uuid.optional(),
        certification: Code.optional(),
        through: PlainDate.optional().describe('Left out: in three months.'),
      }),
      response: { 200: LapsePage, ...failures, ...notFound },
    },
    handler: (request) => findLapses(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/requirements',
    schema: {
      operationId: 'listRequirements',
      summary: 'By unit and grade: how many must hold which certification on a day, and how many do',
      tags: ['dashboards'],
      querystring: z.strictObject(UnitOnDay),
      response: { 200: Requirements, ...failures, ...notFound },
    },
    handler: (request) => findRequirements(context, actorOf(request), request.query),
  })
}
