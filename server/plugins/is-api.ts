import type { FastifyRequest } from 'fastify'

/** Matches whatever no other address does: the pages. */
export const ANY_PAGE = '/*'

/**
 * Whether a request is for the API, however its address is spelt: by the route that it has come to, and where it has come
 * to none of the API, by what it seems to mean.
 */
export function isApi({ routeOptions: { url = ANY_PAGE }, url: address }: FastifyRequest): boolean {
  if (url !== ANY_PAGE) return url.startsWith('/api/')
  return /^[/\\]*api(?![\w.-])/i.test(decoded(address))
}

function decoded(address: string): string {
  try {
    return decodeURIComponent(address)
  } catch {
    return address
  }
}
