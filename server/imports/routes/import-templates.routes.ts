import { FileAnswer } from '../../contract/common.ts'
import * as endpoints from '../../contract/imports/endpoints.ts'
import { TemplateParams, TemplateQuery } from '../../contract/imports/imports.ts'
import { failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes } from '../../http/routes.ts'
import { sendFile } from '../../http/send-file.ts'
import { actorOf } from '../../plugins/session.ts'
import { getTemplate } from '../services/import-files.ts'

export const importTemplateRoutes: Routes = (app, context) => {
  route(app, endpoints.getImportTemplate, {
    schema: {
      operationId: 'getImportTemplate',
      summary: 'A file with the labels of a kind, to be filled in or with all that is here',
      tags: ['imports'],
      params: TemplateParams,
      querystring: TemplateQuery,
      response: { 200: FileAnswer, ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      const { format, filled, version } = request.query
      const how = { format, filled: filled === 'yes', version }
      return sendFile(reply, await getTemplate(context, actorOf(request), request.params.kind, how))
    },
  })
}
