import type { FastifyReply } from 'fastify'
import type { ZodTypeProvider } from 'fastify-type-provider-zod'
import { z } from 'zod'
import type { Context } from '../../context/context.ts'
import { Page, storableText, Uuid } from '../../contract/common.ts'
import {
  Import,
  ImportColumns,
  ImportPage,
  ImportPlan,
  ImportRowPage,
  RowOutcome,
  StoreBody,
} from '../../contract/imports/imports.ts'
import { conflict, failures, notFound } from '../../http/failures.ts'
import type { Routes } from '../../http/routes.ts'
import { FileAnswer, sendFile } from '../../http/send-file.ts'
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

const Id = z.strictObject({ id: Uuid })
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

  app.route({
    method: 'GET',
    url: '/api/imports',
    schema: {
      operationId: 'listImports',
      summary: 'Files one has sent to be taken in, the latest first',
      tags,
      querystring: z.strictObject(Page),
      response: { 200: ImportPage, ...failures },
    },
    handler: (request) => findImports(context, actorOf(request), request.query),
  })

  app.route({
    method: 'GET',
    url: '/api/imports/:id',
    schema: {
      operationId: 'getImport',
      summary: 'A file and how far it has come',
      tags,
      params: Id,
      response: { 200: Import, ...failures, ...notFound },
    },
    handler: (request) => getImport(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'POST',
    url: '/api/imports/:id/columns',
    schema: {
      operationId: 'suggestImportColumns',
      summary: 'What the columns may be taken for, and what has to be asked about dates; stores nothing',
      tags,
      params: Id,
      body: ImportPlan.omit({ dates: true }).meta({ id: 'ImportColumnsAsked' }),
      response: { 200: ImportColumns, ...failures, ...notFound },
    },
    handler: (request) => suggestColumns(context, actorOf(request), request.params.id, request.body),
  })

  app.route({
    method: 'POST',
    url: '/api/imports/:id/check',
    schema: {
      operationId: 'checkImport',
      summary: 'Begin to find out what becomes of each row; stores nothing',
      tags,
      params: Id,
      body: ImportPlan,
      response: { 202: Import, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(202).send(await startCheck(context, actorOf(request), jobs, request.params.id, request.body)),
  })

  app.route({
    method: 'GET',
    url: '/api/imports/:id/rows',
    schema: {
      operationId: 'listImportRows',
      summary: 'What becomes of the rows of a checked file',
      tags,
      params: Id,
      querystring: z.strictObject({ ...Page, outcome: RowOutcome.optional() }),
      response: { 200: ImportRowPage, ...failures, ...notFound },
    },
    handler: (request) => findImportRows(context, actorOf(request), request.params.id, request.query),
  })

  app.route({
    method: 'POST',
    url: '/api/imports/:id/store',
    schema: {
      operationId: 'storeImport',
      summary: 'Begin to store a checked file, all of it or nothing',
      tags,
      params: Id,
      body: StoreBody,
      response: { 202: Import, ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) =>
      reply.code(202).send(await startStore(context, actorOf(request), jobs, request.params.id, request.body.leaveOut)),
  })

  app.route({
    method: 'POST',
    url: '/api/imports/:id/cancel',
    schema: {
      operationId: 'cancelImport',
      summary: 'Give up what is being done with a file; nothing of it is stored',
      tags,
      params: Id,
      response: { 200: Import, ...failures, ...notFound, ...conflict },
    },
    handler: (request) => cancelImport(context, actorOf(request), request.params.id),
  })

  app.route({
    method: 'DELETE',
    url: '/api/imports/:id',
    schema: {
      operationId: 'removeImport',
      summary: 'Remove a file that was sent; what was stored of it stays',
      tags,
      params: Id,
      response: { 204: z.null().describe('It is gone.'), ...failures, ...notFound, ...conflict },
    },
    handler: async (request, reply) => {
      await removeImport(context, actorOf(request), request.params.id)
      return reply.code(204).send(null)
    },
  })

  app.route({
    method: 'GET',
    url: '/api/imports/:id/refused',
    schema: {
      operationId: 'getRefusedRows',
      summary: 'The refused rows as a file, each with why, to be mended and sent again',
      tags,
      params: Id,
      response: { 200: FileAnswer, ...failures, ...notFound },
    },
    handler: async (request, reply) =>
      sendFile(reply, await getRefusedFile(context, actorOf(request), request.params.id)),
  })
}

const addSending = (app: Parameters<Routes>[0], context: Context, stopping: AbortSignal): void => {
  app.route({
    method: 'POST',
    url: '/api/imports',
    bodyLimit: (context.importMegabytes + 1) * 1_000_000,
    schema: {
      operationId: 'sendImport',
      summary: 'Send a file (CSV, XLSX, JSON) as application/octet-stream; nothing of it is stored yet',
      tags,
      headers: FileName,
      querystring: z.strictObject({
        sheet: storableText(200).optional().describe('Of a workbook; left out: the first.'),
      }),
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
