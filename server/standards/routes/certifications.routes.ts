import { Created, IdParams, PageQuery } from '../../contract/common.ts'
import { CertificationBody, CertificationPage } from '../../contract/standards/certifications.ts'
import { Effect, TermsEffectBody } from '../../contract/standards/effects.ts'
import * as endpoints from '../../contract/standards/endpoints.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { createCertification, findCertifications, findTerms } from '../services/certifications.ts'
import { effectOfTerms } from '../services/effect.ts'

export const certificationRoutes: Routes = (app, context) => {
  route(app, endpoints.listCertifications, {
    config: { token: 'standards:read' },
    schema: {
      operationId: 'listCertifications',
      summary: 'The certifications with their latest terms',
      tags: ['certifications'],
      querystring: PageQuery,
      response: { 200: CertificationPage, ...failures },
    },
    handler: (request) => findCertifications(context, actorOf(request), request.query),
  })

  route(app, endpoints.createCertification, {
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

  route(app, endpoints.listTerms, {
    config: { token: 'standards:read' },
    schema: {
      operationId: 'listTerms',
      summary: 'All terms of a certification, the latest first',
      tags: ['certifications'],
      params: IdParams,
      querystring: PageQuery,
      response: { 200: CertificationPage, ...failures, ...notFound },
    },
    handler: (request) => findTerms(context, actorOf(request), request.params.id, request.query),
  })

  route(app, endpoints.effectOfTerms, {
    schema: {
      operationId: 'effectOfTerms',
      summary: 'Whose standing would change if these terms were entered now; stores nothing',
      tags: ['certifications'],
      querystring: PageQuery,
      body: TermsEffectBody,
      response: { 200: Effect, ...failures, ...conflict },
    },
    handler: (request) => effectOfTerms(context, actorOf(request), request.body, request.query),
  })
}
