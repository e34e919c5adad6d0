import { z } from 'zod'
import { CertificationBody, CertificationPage, Readiness, RetestPage } from '../contract/certifications.ts'
import { Code, Created, Page, PlainDate, Uuid } from '../contract/common.ts'
import { actorOf } from '../plugins/session.ts'
import { createCertification, findCertifications } from '../services/catalogue/certifications.ts'
import { getReadiness } from '../services/dashboards/readiness.ts'
import { findRetests } from '../services/dashboards/retests.ts'
import { conflict, failures, notFound } from './failures.ts'
import type { Routes } from './routes.ts'

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
