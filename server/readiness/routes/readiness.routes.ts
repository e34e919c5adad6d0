import * as endpoints from '../../contract/readiness/endpoints.ts'
import {
  LapsePage,
  LapseQuery,
  ReadinessQuery,
  ReadinessTrend,
  TrendQuery,
} from '../../contract/readiness/readiness.ts'
import { RequirementQuery, Requirements } from '../../contract/readiness/requirements.ts'
import { UnitCountsPage, UnitCountsQuery } from '../../contract/readiness/unit-counts.ts'
import { Readiness } from '../../contract/standards/certifications.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { findLapses } from '../services/lapses.ts'
import { getReadiness } from '../services/readiness.ts'
import { getReadinessTrend } from '../services/readiness-trend.ts'
import { findRequirements } from '../services/requirements.ts'
import { findUnitCounts } from '../services/unit-counts.ts'

export const readinessRoutes: Routes = (app, context) => {
  route(app, endpoints.getReadiness, {
    config: { token: 'readiness:read' },
    schema: {
      operationId: 'getReadiness',
      summary: 'Who of a unit can stand as of a day',
      tags: ['dashboards'],
      querystring: ReadinessQuery,
      response: { 200: Readiness, ...failures, ...notFound },
    },
    handler: (request) => getReadiness(context, actorOf(request), request.query),
  })

  route(app, endpoints.listUnitCounts, {
    config: { token: 'readiness:read' },
    schema: {
      operationId: 'listUnitCounts',
      summary: 'How many of each unit stand how as of a day',
      tags: ['dashboards'],
      querystring: UnitCountsQuery,
      response: { 200: UnitCountsPage, ...failures, ...notFound },
    },
    handler: (request) => findUnitCounts(context, actorOf(request), request.query),
  })

  route(app, endpoints.getReadinessTrend, {
    schema: {
      operationId: 'getReadinessTrend',
      summary: 'Of those required, how many were certified at the end of each month',
      tags: ['dashboards'],
      querystring: TrendQuery,
      response: { 200: ReadinessTrend, ...failures, ...notFound },
    },
    handler: (request) => getReadinessTrend(context, actorOf(request), request.query),
  })

  route(app, endpoints.listLapses, {
    config: { token: 'readiness:read' },
    schema: {
      operationId: 'listLapses',
      summary: 'Who is certified today and lapses by a day unless they renew, the first to lapse first',
      tags: ['dashboards'],
      querystring: LapseQuery,
      response: { 200: LapsePage, ...failures, ...notFound },
    },
    handler: (request) => findLapses(context, actorOf(request), request.query),
  })

  route(app, endpoints.listRequirements, {
    schema: {
      operationId: 'listRequirements',
      summary: 'By unit and grade: how many must hold which certification on a day, and how many do',
      tags: ['dashboards'],
      querystring: RequirementQuery,
      response: { 200: Requirements, ...failures, ...notFound },
    },
    handler: (request) => findRequirements(context, actorOf(request), request.query),
  })
}
