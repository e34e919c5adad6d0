import helmet from '@fastify/helmet'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import { isApi } from './is-api.ts'

const YEAR_SECONDS = 31_536_000

/** What our pages need, and nothing else: scripts, styles, fonts, pictures and answers of this very origin. */
const CONTENT_SECURITY_POLICY = {
  defaultSrc: ["'none'"],
  scriptSrc: ["'self'"],
  styleSrc: ["'self'"],
  fontSrc: ["'self'"],
  imgSrc: ["'self'"],
  connectSrc: ["'self'"],
  manifestSrc: ["'self'"],
  workerSrc: ["'self'"],
  formAction: ["'self'"],
  objectSrc: ["'none'"],
  baseUri: ["'none'"],
  frameAncestors: ["'none'"],
}

/** Powers of the browser that no page of ours uses, kept from whatever might get into one. */
const PERMISSIONS_POLICY = ['camera', 'geolocation', 'microphone', 'payment', 'serial', 'usb']
  .map((power) => `${power}=()`)
  .join(', ')

/**
 * Headers that keep a browser safe. Answers of the API are kept in no cache, for they are about people, and say what time it is
 * here, so that a device knows when its own clock is wrong.
 */
export async function registerHeaders(app: FastifyInstance, clock: () => Date): Promise<void> {
  await app.register(helmet, {
    contentSecurityPolicy: { useDefaults: false, directives: CONTENT_SECURITY_POLICY },
    strictTransportSecurity: false,
  })
  app.addHook('onRequest', async (request, reply) => {
    reply.header('permissions-policy', PERMISSIONS_POLICY)
    if (isApi(request)) reply.header('cache-control', 'no-store').header('x-server-time', clock().toISOString())
    if (mayDemandTls(request)) {
      reply.header('strict-transport-security', `max-age=${YEAR_SECONDS}; includeSubDomains`)
    }
  })
}

/** Of localhost it would be remembered for every other server on this machine, too. */
function mayDemandTls({ protocol, hostname }: FastifyRequest): boolean {
  return protocol === 'https' && hostname !== 'localhost'
}
