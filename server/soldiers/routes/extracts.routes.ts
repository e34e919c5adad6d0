import { z } from 'zod'
import { page, Uuid } from '../../contract/common.ts'
import {
  Certificate,
  CertificateNumber,
  CertificateQuery,
  CertificateRecord,
  SoldierExtract,
} from '../../contract/soldiers/extracts.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { lookUpCertificate, makeCertificate } from '../services/extracts/certificates.ts'
import { makeExtract } from '../services/extracts/make-extract.ts'

const Id = z.strictObject({ id: Uuid })

export const extractRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/soldiers/:id/extract',
    schema: {
      operationId: 'extractSoldier',
      summary: 'Everything held about a soldier, for the office and the soldier; that it was made is on record',
      tags: ['people'],
      params: Id,
      response: { 200: SoldierExtract, ...failures, ...notFound },
    },
    handler: (request) => makeExtract(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'GET',
    url: '/api/soldiers/:id/certificate',
    schema: {
      operationId: 'makeCertificate',
      summary: 'What a certificate states, of a certification in force today; that it was made is on record',
      tags: ['people'],
      params: Id,
      querystring: CertificateQuery,
      response: { 200: Certificate, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => makeCertificate(context, actorOf(request), request.params.id, request.query.certification),
  })

  app.route({
    method: 'GET',
    url: '/api/certificates/:number',
    schema: {
      operationId: 'lookUpCertificate',
      summary: 'The awards behind the record number of a certificate, and how its soldier stands today',
      tags: ['people'],
      params: z.strictObject({ number: CertificateNumber }),
      response: { 200: page(CertificateRecord), ...failures, ...notFound },
    },
    handler: (request) => lookUpCertificate(context, actorOf(request), request.params.number),
  })
}
