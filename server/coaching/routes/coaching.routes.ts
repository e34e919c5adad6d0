import { z } from 'zod'
import { CandidateCoaching, Coaching } from '../../contract/coaching/coaching.ts'
import { StudySheet } from '../../contract/coaching/study.ts'
import { Code, Page, Uuid } from '../../contract/common.ts'
import { failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getCandidateCoaching, getCoaching } from '../services/get-coaching.ts'
import { getStudySheet } from '../services/get-study-sheet.ts'

export const coachingRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/coaching',
    schema: {
      operationId: 'getCoaching',
      summary: 'A sponsor’s present candidates: what is ahead of each, what to drill, what to see to',
      tags: ['coaching'],
      querystring: z.strictObject(Page),
      response: { 200: Coaching, ...failures },
    },
    handler: (request) => getCoaching(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/soldiers/:id/coaching',
    schema: {
      operationId: 'getCandidateCoaching',
      summary: 'What is ahead of one soldier, and what to drill for it',
      tags: ['coaching'],
      params: z.strictObject({ id: Uuid }),
      querystring: z.strictObject({
        standard: Code.optional().describe('What to drill for; without it, for the next test.'),
      }),
      response: { 200: CandidateCoaching, ...failures, ...notFound },
    },
    handler: (request) => getCandidateCoaching(context, actorOf(request), request.params.id, request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/study/:standard',
    schema: {
      operationId: 'getStudySheet',
      summary: 'What to learn of a standard: the faults the unit is marked for most, and a candidate’s own beside them',
      tags: ['coaching'],
      params: z.strictObject({ standard: Code }),
      querystring: z.strictObject({ candidateId: Uuid.optional() }),
      response: { 200: StudySheet, ...failures, ...notFound },
    },
    handler: (request) => getStudySheet(context, actorOf(request), request.params.standard, request.query),
  })
}
