import type { FastifyReply } from 'fastify'
import type { ZodTypeProvider } from 'fastify-type-provider-zod'
import { z } from 'zod'
import type { Context } from '../../context/context.ts'
import { FileAnswer, IdParams, PageQuery, storableText } from '../../contract/common.ts'
import * as endpoints from '../../contract/imports/endpoints.ts'
import {
  Import,
  ImportColumns,
  ImportColumnsBody,
  ImportPage,
  ImportPlan,
  ImportRowPage,
  ImportRowQuery,
  SendImportQuery,
  StoreBody,
} from '../../contract/imports/imports.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import { route } from '../../http/route.ts'
import type { Routes, ZodApp } from '../../http/routes.ts'
import { sendFile } from '../../http/send-file.ts'
import { actorOf } from '../../plugins/session.ts'
import { getRefusedFile } from '../services/import-files.ts'
import { importJobs } from '../services/import-jobs.ts'
import {
  cancelImport,
  findImportRows,
  findImports,
  getImport,
  removeImport,
  startCheck,
  startStore,
} from '../services/imports.ts'
import { stageFile } from '../services/stage-file.ts'
import { suggestColumns } from '../services/suggest-columns.ts'

const tags = ['imports']

/** The name travels beside the file, not in the address: it may hold names of people. */
const FileName = z.object({ 'x-file-name': storableText(1000).default('file') })

export const importRoutes: Routes = (app, context) => {
  const jobs = importJobs(context, (error) => app.log.error({ err: error }, 'Work on a file failed'))
  const stopping = new AbortController()
  app.addHook('preClose', async () => {
    stopping.abort()
    await jobs.stop()
  })
  // Only here is anything but JSON taken: the file itself, byte by byte.
  app.register(async (only) => {
    only.addContentTypeParser('application/octet-stream', (_request, payload, done) => done(null, payload))
    addSending(only.withTypeProvider<ZodTypeProvider>(), context, stopping.signal)
  })
  addFiles(app, context)
  addColumns(app, context, jobs)
  addRows(app, context, jobs)
}

const addFiles: Routes = (app, context) => {
  route(app, endpoints.listImports, {
    schema: {
      operationId: 'listImports',
      summary: 'Files one has sent to import, the latest first',
      tags,
      querystring: PageQuery,
      response: { 200: ImportPage, ...failures },
    },
    handler: (request) => findImports(context, actorOf(request), request.query),
  })

  route(app, endpoints.getImport, {
    schema: {
      operationId: 'getImport',
      summary: 'A file and how far it has come',
      tags,
      params: IdParams,
      response: { 200: Import, ...failures, ...notFound },
    },
    handler: (request) => getImport(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.cancelImport, {
    schema: {
      operationId: 'cancelImport',
      summary: 'Give up what is being done with a file; nothing of it is stored',
      tags,
      params: IdParams,
      response: { 200: Import, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => cancelImport(context, actorOf(request), request.params.id),
  })

  route(app, endpoints.removeImport, {
    schema: {
      operationId: 'removeImport',
      summary: 'Remove a file that was sent; what was stored of it stays',
      tags,
      params: IdParams,
      response: { 204: z.null().describe('It is gone.'), ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      await removeImport(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })
}

const addColumns = (app: ZodApp, context: Context, jobs: ReturnType<typeof importJobs>): void => {
  route(app, endpoints.suggestImportColumns, {
    schema: {
      operationId: 'suggestImportColumns',
      summary: 'What the columns may be taken for, and what has to be asked about dates; stores nothing',
      tags,
      params: IdParams,
      body: ImportColumnsBody,
      response: { 200: ImportColumns, ...failures, ...notFound },
    },
    handler: (request) => suggestColumns(context, actorOf(request), request.params.id, request.body),
  })

  route(app, endpoints.checkImport, {
    schema: {
      operationId: 'checkImport',
      summary: 'Begin to find out what becomes of each row; stores nothing',
      tags,
      params: IdParams,
      body: ImportPlan,
      response: { 202: Import, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(202).send(await startCheck(context, actorOf(request), jobs, request.params.id, request.body)),
  })
}

const addRows = (app: ZodApp, context: Context, jobs: ReturnType<typeof importJobs>): void => {
  route(app, endpoints.listImportRows, {
    schema: {
      operationId: 'listImportRows',
      summary: 'What becomes of the rows of a checked file',
      tags,
      params: IdParams,
      querystring: ImportRowQuery,
      response: { 200: ImportRowPage, ...failures, ...notFound },
    },
    handler: (request) => findImportRows(context, actorOf(request), request.params.id, request.query),
  })

  route(app, endpoints.getRefusedRows, {
    schema: {
      operationId: 'getRefusedRows',
      summary: 'The refused rows as a file, each with why, to be mended and sent again',
      tags,
      params: IdParams,
      response: { 200: FileAnswer, ...failures, ...notFound },
    },
    handler: async (request, reply) =>
      sendFile(reply, await getRefusedFile(context, actorOf(request), request.params.id)),
  })

  route(app, endpoints.storeImport, {
    schema: {
      operationId: 'storeImport',
      summary: 'Begin to store a checked file, all of it or nothing',
      tags,
      params: IdParams,
      body: StoreBody,
      response: { 202: Import, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(202).send(await startStore(context, actorOf(request), jobs, request.params.id, request.body.leaveOut)),
  })
}

const addSending = (app: ZodApp, context: Context, stopping: AbortSignal): void => {
  route(app, endpoints.sendImport, {
    bodyLimit: (context.importMegabytes + 1) * 1_000_000,
    schema: {
      operationId: 'sendImport',
      summary: 'Send a file (CSV, XLSX, JSON) as application/octet-stream; nothing of it is stored yet',
      tags,
      headers: FileName,
      querystring: SendImportQuery,
      response: { 201: Import, ...failures },
    },
    handler: async (request, reply) => {
      const fileName = decodedName(request.headers['x-file-name'])
      const { sheet } = request.query
      const body = request.body as AsyncIterable<Buffer> | undefined
      const signal = AbortSignal.any([whileFollowed(reply), stopping])
      return reply
        .code(201)
        .send(await stageFile(context, actorOf(request), { fileName, sheet, signal }, piecesOf(body)))
    },
  })
}

/** Aborts when the answer was given, or whoever asked is gone before. (`request.signal` does so once the body has come.) */
function whileFollowed(reply: FastifyReply): AbortSignal {
  const ended = new AbortController()
  reply.raw.once('close', () => ended.abort())
  return ended.signal
}

/** The pieces of a body that is a stream; of one that is none, its JSON. */
async function* piecesOf(body: unknown): AsyncGenerator<Buffer> {
  if (body === undefined || body === null) return
  if (typeof body === 'object' && Symbol.asyncIterator in body) yield* body as AsyncIterable<Buffer>
  else yield Buffer.from(JSON.stringify(body))
}

function decodedName(name: string): string {
  try {
    return decodeURIComponent(name)
  } catch {
    return name
  }
}
