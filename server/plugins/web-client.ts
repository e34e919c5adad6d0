import { existsSync } from 'node:fs'
import path from 'node:path'
import compress from '@fastify/compress'
import etag from '@fastify/etag'
import fastifyStatic from '@fastify/static'
import type { FastifyInstance } from 'fastify'
import { projectFolder } from '../config/project-folder.ts'
import type { Context } from '../context/context.ts'
import { firstPage } from './first-page.ts'
import { ANY_PAGE, isApi } from './is-api.ts'

const BUILT = path.join(projectFolder, 'dist/web')
const YEAR_SECONDS = 31_536_000

/** Compression, and the pages where they are built. */
export async function registerWebClient(app: FastifyInstance, context: Context): Promise<void> {
  await app.register(compress, { globalDecompression: false, threshold: 1024 })
  await app.register(etag)
  if (!existsSync(path.join(BUILT, 'index.html'))) return
  await app.register(fastifyStatic, {
    root: BUILT,
    wildcard: false,
    index: false,
    setHeaders: (reply, file) => {
      const named = file.includes(`${path.sep}assets${path.sep}`)
      reply.header('cache-control', named ? `public, max-age=${YEAR_SECONDS}, immutable` : 'no-cache')
    },
  })
  const pageFor = firstPage(BUILT, context)
  app.get(ANY_PAGE, { schema: { hide: true } }, async (request, reply) => {
    if (isApi(request) || /\.\w+$/.test(request.url.split('?')[0]!)) return reply.callNotFound()
    const page = await pageFor(request)
    return reply.type('text/html; charset=utf-8').header('cache-control', 'private, no-cache').send(page)
  })
}
