import { z } from 'zod'
import { Code, Created, Page, PlainDate, Uuid } from '../../contract/common.ts'
import { CertificationBody, CertificationPage, Readiness, RetestPage } from '../../contract/standards/certifications.ts'
import { Effect, TermsEffectQuestion } from '../../contract/standards/effects.ts'
import { Requirements } from '../../contract/standards/requirements.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { getReadiness } from '../../readiness/services/readiness.ts'
import { findRequirements } from '../../readiness/services/requirements.ts'
import { findRetests } from '../../readiness/services/retests.ts'
import { createCertification, findCertifications, findTerms } from '../services/certifications.ts'
import { effectOfTerms } from '../services/effect.ts'

const UnitOnDay = { ...Page, asOf: PlainDate.optional(), unitId: Uuid.optional() }

export const certificationRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/certifications',
    schema: {
      operationId: 'listCertifications',
      summary: 'The certifications with their latest terms',
      tags: ['certifications'],
      querystring: z.strictObject(Page),
      response: { 200: CertificationPage, ...failures },
    },
    handler: (request) => findCertifications(context, actorOf(request), request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/certifications',
    schema: {
      operationId: 'createCertification',
      summary: 'Create a certification, or new terms of one from a day on',
      tags: ['certifications'],
      body: CertificationBody,
      response: { 201: Created, ...failures, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(201).send(await createCertification(context, actorOf(request), request.body)),
  })

  app.route({
    method: 'GET',
    url: '/api/certifications/:id/terms',
    schema: {
      operationId: 'listTerms',
      summary: 'All terms of a certification, the latest first',
      tags: ['certifications'],
      params: z.strictObject({ id: Uuid }),
      querystring: z.strictObject(Page),
      response: { 200: CertificationPage, ...failures, ...notFound },
    },
    handler: (request) => findTerms(context, actorOf(request), request.params.id, request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/certifications/effect',
    schema: {
      operationId: 'effectOfTerms',
      summary: 'Who would stand otherwise if these terms were entered now; stores nothing',
      tags: ['certifications'],
      querystring: z.strictObject(Page),
      body: TermsEffectQuestion,
      response: { 200: Effect, ...failures, ...conflict },
    },
    handler: (request) => effectOfTerms(context, actorOf(request), request.body, request.query),
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

  app.route({
    method: 'GET',
    url: '/api/readiness',
    schema: {
      operationId: 'getReadiness',
      summary: 'Who of a unit can stand as of a day',
      tags: ['dashboards'],
      querystring: z.strictObject({ ...UnitOnDay, certification: Code.optional() }),
      response: { 200: Readiness, ...failures, ...notFound },
    },
    handler: (request) => getReadiness(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/retests',
    schema: {
      operationId: 'listRetests',
      summary: 'The retests open as of a day, by due date',
      tags: ['dashboards'],
      querystring: z.strictObject({ ...UnitOnDay, soldierId: Uuid.optional() }),
      response: { 200: RetestPage, ...failures, ...notFound },
    },
    handler: (request) => findRetests(context, actorOf(request), request.query),
  })
}
