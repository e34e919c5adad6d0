import { finished, Readable } from 'node:stream'
import { createGunzip } from 'node:zlib'
import { errorCodes, type FastifyInstance, type FastifyRequest } from 'fastify'
import { AppError } from '../errors.ts'

/**
 * Takes JSON that is compressed with gzip, and refuses all else that is compressed before any of it is read. What is inflated
 * is counted as it comes: at the first byte beyond the limit the inflating ends and the answer is a 413, so a small body
 * never becomes a large one. Says with `Accept-Encoding` what is taken (RFC 9110, 15.5.16), and closes, for the rest may be long.
 */
export function registerCompressedBodies(app: FastifyInstance, mostBytes: number): void {
  app.addHook('onRequest', async (request, reply) => {
    if (encodingOf(request) === 'identity' || isGzip(request)) return
    reply.header('accept-encoding', isJson(request) ? 'gzip' : 'identity').header('connection', 'close')
    const remedy = isJson(request) ? 'Send it as it is, or with gzip alone.' : 'Send it as it is.'
    throw new AppError('wrong-media-type', 'content-encoding', `The body is compressed. ${remedy}`)
  })
  app.addHook('preParsing', async (request, _reply, body) =>
    isGzip(request) ? inflate(body as Readable, mostBytes) : body,
  )
}

const encodingOf = ({ headers }: FastifyRequest): string =>
  headers['content-encoding']?.trim().toLowerCase() || 'identity'

const isJson = ({ headers }: FastifyRequest): boolean =>
  /^application\/json\s*(;|$)/i.test(headers['content-type'] ?? '')

/** RFC 9110, 8.4.1.3: `x-gzip` is the same. */
const isGzip = (request: FastifyRequest): boolean => /^(x-)?gzip$/.test(encodingOf(request)) && isJson(request)

/** With the bytes that came before inflating, by which Fastify checks `Content-Length`. */
type Inflated = Readable & { receivedEncodedLength: number }

function inflate(body: Readable, mostBytes: number): Inflated {
  const inflated: Inflated = Object.assign(Readable.from(pieces()), { receivedEncodedLength: 0 })
  return inflated

  async function* pieces(): AsyncGenerator<Buffer> {
    const gunzip = createGunzip()
    body.on('data', (piece: Buffer) => {
      inflated.receivedEncodedLength += piece.length
      // May inflate to nothing for ever.
      if (inflated.receivedEncodedLength > mostBytes) gunzip.destroy(tooLarge())
    })
    finished(body, (error) => error && gunzip.destroy(error))
    let bytes = 0
    try {
      for await (const piece of body.pipe(gunzip) as AsyncIterable<Buffer>) {
        bytes += piece.length
        if (bytes > mostBytes) throw tooLarge()
        yield piece
      }
    } catch (error) {
      throw isOfGzip(error) ? notGzip() : error
    } finally {
      body.unpipe(gunzip).resume()
    }
  }
}

const tooLarge = () => new errorCodes.FST_ERR_CTP_BODY_TOO_LARGE()

const isOfGzip = (error: unknown): boolean => String((error as { code?: unknown }).code).startsWith('Z_')

const notGzip = () =>
  new AppError(
    'malformed-request',
    'not-gzip',
    'The body is said to be compressed with gzip, but is not, or is cut off. Send it again, or as it is.',
  )
