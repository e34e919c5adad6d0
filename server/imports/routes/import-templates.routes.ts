import { z } from 'zod'
import { Uuid } from '../../contract/common.ts'
import { ImportKind, TemplateFormat } from '../../contract/imports/imports.ts'
import { failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { FileAnswer, sendFile } from '../../http/send-file.ts'
import { actorOf } from '../../plugins/session.ts'
import { getTemplate } from '../services/import-files.ts'

export const importTemplateRoutes: Routes = (app, context) => {
  app.route({
    method: 'GET',
    url: '/api/import-templates/:kind',
    schema: {
      operationId: 'getImportTemplate',
      summary: 'A file with the labels of a kind, to be filled in or with all that is here',
      tags: ['imports'],
      params: z.strictObject({ kind: ImportKind }),
      querystring: z.strictObject({
        format: TemplateFormat.default('xlsx'),
        filled: z.enum(['yes', 'no']).default('no').describe('yes: with all that is here.'),
        version: Uuid.optional().describe('Of standards: filled with this version alone.'),
      }),
      response: { 200: FileAnswer, ...failures, ...notFound },
    },
    handler: async (request, reply) => {
      const { format, filled, version } = request.query
      const how = { format, filled: filled === 'yes', version }
      return sendFile(reply, await getTemplate(context, actorOf(request), request.params.kind, how))
    },
  })
}
