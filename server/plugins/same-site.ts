import type { FastifyInstance, FastifyRequest } from 'fastify'
import { AppError } from '../errors.ts'

const SAFE: readonly string[] = ['GET', 'HEAD', 'OPTIONS']

/**
 * Refuses what another site makes a browser send, whatever cookies come with it. Every browser of today says where a
 * request comes from, in Sec-Fetch-Site (to hosts reached by TLS or loopback) or in Origin; what says neither is no
 * browser, and nobody's cookies are with it. A form's media types are refused as well, so that nothing but a script of
 * ours, or one that had to ask first (which we never allow), can send JSON.
 */
export function registerSameSite(app: FastifyInstance): void {
  app.addHook('onRequest', async (request) => {
    if (SAFE.includes(request.method)) return
    if (!comesFromUs(request)) {
      const detail = 'Another site made your browser send this. Nothing was done; open Reviewstand itself to do it.'
      throw new AppError('not-allowed', 'cross-site-request', detail)
    }
  })
}

function comesFromUs(request: FastifyRequest): boolean {
  const { 'sec-fetch-site': site, origin, referer } = request.headers
  if (site !== undefined) return site === 'same-origin'
  const from = origin ?? referer
  return from === undefined || originOf(from) === `${request.protocol}://${request.host}`.toLowerCase()
}

/** `null`, which a sandboxed page has for an origin, is nobody's. */
function originOf(url: string): string | null {
  return URL.canParse(url) ? new URL(url).origin : null
}
