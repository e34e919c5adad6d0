import { isIP } from 'node:net'
import type { FastifyRequest } from 'fastify'
import type { Site } from '../accounts/services/factors/site.ts'
import type { Context } from '../context/context.ts'

/**
 * Where a browser finds this server: at the address that is set, or on this very machine as localhost. Out: null where that
 * is not said, or passkeys cannot be made for it: they take a name, and TLS.
 */
export function siteOf(request: FastifyRequest, { address }: Context): Site | null {
  const here = request.hostname === 'localhost' ? `${request.protocol}://${request.host}` : null
  const url = [address(), here].flatMap((each) => (each === null ? [] : [new URL(each)])).find(takesPasskeys)
  return url ? { origin: url.origin, host: url.hostname } : null
}

const takesPasskeys = ({ protocol, hostname }: URL): boolean =>
  (protocol === 'https:' || hostname === 'localhost') && isIP(hostname.replace(/^\[|\]$/g, '')) === 0
