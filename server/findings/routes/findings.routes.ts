import { AgreementFindings } from '../../contract/findings/agreement.ts'
import * as endpoints from '../../contract/findings/endpoints.ts'
import { FindingsQuery, MeasureFindings, SponsorFindings } from '../../contract/findings/findings.ts'
import { ForecastFindings } from '../../contract/findings/forecast.ts'
import { GraderFindings } from '../../contract/findings/graders.ts'
import { PairFindings } from '../../contract/findings/pairs.ts'
import { QualityFindings, QualityQuery } from '../../contract/findings/quality.ts'
import { UnpagedFindingsQuery } from '../../contract/findings/query.ts'
import { ReadingFindings } from '../../contract/findings/readings.ts'
import { SponsorFunnelFindings } from '../../contract/findings/sponsor-funnel.ts'
import { SponsorMeasures, SponsorMeasuresQuery } from '../../contract/findings/sponsor-measures.ts'
import { TimeToCertify, TimeToCertifyQuery } from '../../contract/findings/time-to-certify.ts'
import { TrendFindings, TrendQuery } from '../../contract/findings/trend.ts'
import { VoidFindings, VoidQuery } from '../../contract/findings/voids.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getAgreementFindings } from '../services/get-agreement-findings.ts'
import { getForecastFindings } from '../services/get-forecast-findings.ts'
import { getGraderFindings } from '../services/get-grader-findings.ts'
import { getMeasureFindings } from '../services/get-measure-findings.ts'
import { getPairFindings } from '../services/get-pair-findings.ts'
import { getQualityFindings } from '../services/get-quality-findings.ts'
import { getReadingFindings } from '../services/get-reading-findings.ts'
import { getSponsorFindings } from '../services/get-sponsor-findings.ts'
import { getSponsorFunnel } from '../services/get-sponsor-funnel.ts'
import { getSponsorMeasures } from '../services/get-sponsor-measures.ts'
import { getTimeToCertify } from '../services/get-time-to-certify.ts'
import { getTrendFindings } from '../services/get-trend-findings.ts'
import { getVoidFindings } from '../services/get-void-findings.ts'

export const findingRoutes: Routes = (app, context) => {
  addMeasures(app, context)
  addTests(app, context)
  addSponsors(app, context)
  addGraders(app, context)
}

const addMeasures: Routes = (app, context) => {
  route(app, endpoints.getMeasureFindings, {
    schema: {
      operationId: 'getMeasureFindings',
      summary: 'Failing measures: NO-GO of tested with its interval, trials and faults, by how often',
      tags: ['findings'],
      querystring: FindingsQuery,
      response: { 200: MeasureFindings, ...failures, ...notFound },
    },
    handler: (request) => getMeasureFindings(context, actorOf(request), request.query),
  })

  route(app, endpoints.getTrendFindings, {
    schema: {
      operationId: 'getTrendFindings',
      summary: 'NO-GO rates by month, with limits that say which month is unusual',
      tags: ['findings'],
      querystring: TrendQuery,
      response: { 200: TrendFindings, ...failures, ...notFound },
    },
    handler: (request) => getTrendFindings(context, actorOf(request), request.query),
  })

  route(app, endpoints.getReadingFindings, {
    schema: {
      operationId: 'getReadingFindings',
      summary: 'Readings of each gauge against its band',
      tags: ['findings'],
      querystring: UnpagedFindingsQuery,
      response: { 200: ReadingFindings, ...failures, ...notFound },
    },
    handler: (request) => getReadingFindings(context, actorOf(request), request.query),
  })

  route(app, endpoints.getPairFindings, {
    schema: {
      operationId: 'getPairFindings',
      summary: 'Which minor measures are NO-GO together beyond what ability makes of it',
      tags: ['findings'],
      querystring: UnpagedFindingsQuery,
      response: { 200: PairFindings, ...failures, ...notFound },
    },
    handler: (request) => getPairFindings(context, actorOf(request), request.query),
  })
}

const addTests: Routes = (app, context) => {
  route(app, endpoints.getQualityFindings, {
    schema: {
      operationId: 'getQualityFindings',
      summary: 'How well each standard works as a test, from first tests unless asked otherwise',
      tags: ['findings'],
      querystring: QualityQuery,
      response: { 200: QualityFindings, ...failures, ...notFound },
    },
    handler: (request) => getQualityFindings(context, actorOf(request), request.query),
  })

  route(app, endpoints.getForecastFindings, {
    schema: {
      operationId: 'getForecastFindings',
      summary: 'How the forecasts that would have been made the day before past tests came out',
      tags: ['findings'],
      querystring: UnpagedFindingsQuery,
      response: { 200: ForecastFindings, ...failures, ...notFound },
    },
    handler: (request) => getForecastFindings(context, actorOf(request), request.query),
  })

  route(app, endpoints.getTimeToCertify, {
    schema: {
      operationId: 'getTimeToCertify',
      summary: 'How long it takes to be certified the first time, by company',
      tags: ['findings'],
      querystring: TimeToCertifyQuery,
      response: { 200: TimeToCertify, ...failures, ...notFound },
    },
    handler: (request) => getTimeToCertify(context, actorOf(request), request.query),
  })
}

const addSponsors: Routes = (app, context) => {
  route(app, endpoints.getSponsorFindings, {
    schema: {
      operationId: 'getSponsorFindings',
      summary: 'Attempts and passes of each sponsor’s candidates, judged, by name',
      tags: ['findings'],
      querystring: FindingsQuery,
      response: { 200: SponsorFindings, ...failures, ...notFound },
    },
    handler: (request) => getSponsorFindings(context, actorOf(request), request.query),
  })

  route(app, endpoints.getSponsorFunnel, {
    schema: {
      operationId: 'getSponsorFunnel',
      summary: 'The unit’s figures that sponsors stand beside, and the limits of their funnel',
      tags: ['findings'],
      querystring: UnpagedFindingsQuery,
      response: { 200: SponsorFunnelFindings, ...failures, ...notFound },
    },
    handler: (request) => getSponsorFunnel(context, actorOf(request), request.query),
  })

  route(app, endpoints.getSponsorMeasures, {
    schema: {
      operationId: 'getSponsorMeasures',
      summary: 'What all candidates of one sponsor fail, beside those of all others',
      tags: ['findings'],
      querystring: SponsorMeasuresQuery,
      response: { 200: SponsorMeasures, ...failures, ...notFound },
    },
    handler: (request) => getSponsorMeasures(context, actorOf(request), request.query),
  })
}

const addGraders: Routes = (app, context) => {
  route(app, endpoints.getGraderFindings, {
    schema: {
      operationId: 'getGraderFindings',
      summary: 'GO of each grader against what the unit’s rates would give, by name',
      tags: ['findings'],
      querystring: FindingsQuery,
      response: { 200: GraderFindings, ...failures, ...notFound },
    },
    handler: (request) => getGraderFindings(context, actorOf(request), request.query),
  })

  route(app, endpoints.getAgreementFindings, {
    schema: {
      operationId: 'getAgreementFindings',
      summary: 'How far graders agree on attempts graded twice',
      tags: ['findings'],
      querystring: UnpagedFindingsQuery,
      response: { 200: AgreementFindings, ...failures, ...notFound },
    },
    handler: (request) => getAgreementFindings(context, actorOf(request), request.query),
  })

  route(app, endpoints.getVoidFindings, {
    schema: {
      operationId: 'getVoidFindings',
      summary: 'Tests that each grader made void, by name',
      tags: ['findings'],
      querystring: VoidQuery,
      response: { 200: VoidFindings, ...failures, ...notFound },
    },
    handler: (request) => getVoidFindings(context, actorOf(request), request.query),
  })
}
