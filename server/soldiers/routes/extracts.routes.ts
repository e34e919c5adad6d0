import { IdParams } from '../../contract/common.ts'
import * as endpoints from '../../contract/soldiers/endpoints.ts'
import {
  Certificate,
  CertificateParams,
  CertificateQuery,
  CertificateRecordPage,
  SoldierExtract,
} from '../../contract/soldiers/extracts.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { actorOf } from '../../plugins/session.ts'
import { lookUpCertificate, makeCertificate } from '../services/extracts/certificates.ts'
import { makeExtract } from '../services/extracts/make-extract.ts'

export const extractRoutes: Routes = (app, context) => {
  route(app, endpoints.extractSoldier, {
    schema: {
      operationId: 'extractSoldier',
      summary: 'Everything held about a soldier, for the office and the soldier; that it was made is on record',
      tags: ['people'],
      params: IdParams,
      response: { 200: SoldierExtract, ...failures, ...notFound },
    },
    handler: (request) => makeExtract(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.makeCertificate, {
    schema: {
      operationId: 'makeCertificate',
      summary: 'What a certificate states, of a certification in force today; that it was made is on record',
      tags: ['people'],
      params: IdParams,
      querystring: CertificateQuery,
      response: { 200: Certificate, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => makeCertificate(context, actorOf(request), request.params.id, request.query.certification),
  })

  route(app, endpoints.lookUpCertificate, {
    schema: {
      operationId: 'lookUpCertificate',
      summary: 'The awards behind the record number of a certificate, and how its soldier stands today',
      tags: ['people'],
      params: CertificateParams,
      response: { 200: CertificateRecordPage, ...failures, ...notFound },
    },
    handler: (request) => lookUpCertificate(context, actorOf(request), request.params.number),
  })
}
