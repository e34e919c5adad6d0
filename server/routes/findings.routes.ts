import { FindingsQuery, MeasureFindings, SponsorFindings } from '../contract/findings.ts'
import { actorOf } from '../plugins/session.ts'
import { getMeasureFindings, getSponsorFindings } from '../services/dashboards/findings.ts'
import { failures, notFound } from './failures.ts'
import type { Routes } from './routes.ts'

export const findingRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/findings/measures',
    schema: {
      operationId: 'getMeasureFindings',
      summary: 'Failing measures: NO-GOs, trials and faults by measure',
      tags: ['dashboards'],
      querystring: FindingsQuery,
      response: { 200: MeasureFindings, ...failures, ...notFound },
    },
    handler: (request) => getMeasureFindings(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/findings/sponsors',
    schema: {
      operationId: 'getSponsorFindings',
      summary: 'Attempts and passes of each sponsor’s candidates, by name',
      tags: ['dashboards'],
      querystring: FindingsQuery,
      response: { 200: SponsorFindings, ...failures, ...notFound },
    },
    handler: (request) => getSponsorFindings(context, actorOf(request), request.query),
  })
}
