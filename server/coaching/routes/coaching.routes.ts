import { CandidateCoaching, CandidateCoachingQuery, Coaching } from '../../contract/coaching/coaching.ts'
import * as endpoints from '../../contract/coaching/endpoints.ts'
import { StudyParams, StudyQuery, StudySheet } from '../../contract/coaching/study.ts'
import { IdParams, PageQuery } from '../../contract/common.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getCandidateCoaching, getCoaching } from '../services/get-coaching.ts'
import { getStudySheet } from '../services/get-study-sheet.ts'

export const coachingRoutes: Routes = (app, context) => {
  route(app, endpoints.getCoaching, {
    schema: {
      operationId: 'getCoaching',
      summary: 'A sponsor’s present candidates: what is ahead of each, what to drill, what to see to',
      tags: ['coaching'],
      querystring: PageQuery,
      response: { 200: Coaching, ...failures },
    },
    handler: (request) => getCoaching(context, actorOf(request), request.query),
  })

  route(app, endpoints.getCandidateCoaching, {
    schema: {
      operationId: 'getCandidateCoaching',
      summary: 'What is ahead of one soldier, and what to drill for it',
      tags: ['coaching'],
      params: IdParams,
      querystring: CandidateCoachingQuery,
      response: { 200: CandidateCoaching, ...failures, ...notFound },
    },
    handler: (request) => getCandidateCoaching(context, actorOf(request), request.params.id, request.query),
  })

  route(app, endpoints.getStudySheet, {
    schema: {
      operationId: 'getStudySheet',
      summary: 'What to learn of a standard: the faults the unit is marked for most, and a candidate’s own beside them',
      tags: ['coaching'],
      params: StudyParams,
      querystring: StudyQuery,
      response: { 200: StudySheet, ...failures, ...notFound },
    },
    handler: (request) => getStudySheet(context, actorOf(request), request.params.standard, request.query),
  })
}
