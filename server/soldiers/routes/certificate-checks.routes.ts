import * as endpoints from '../../contract/soldiers/endpoints.ts'
import { CertificateCheckBody, CheckedCertificate } from '../../contract/soldiers/signed-certificates.ts'
import { failures } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { verifyCertificate } from '../services/extracts/verify-certificate.ts'

const LARGEST_BODY_BYTES = 16_384

/** For whoever is shown a certificate; it comes in the body, so that no address and no log has it. */
export const certificateCheckRoutes: Routes = (app, context) => {
  route(app, endpoints.verifyCertificate, {
    config: { open: true, limits: 'strict' },
    bodyLimit: LARGEST_BODY_BYTES,
    schema: {
      operationId: 'verifyCertificate',
      summary: 'What a signed certificate states, and whether it is still in force; for anybody who holds it',
      tags: ['people'],
      security: [],
      body: CertificateCheckBody,
      response: { 200: CheckedCertificate, ...failures },
    },
    handler: (request) => verifyCertificate(context, request.body.certificate),
  })
}
