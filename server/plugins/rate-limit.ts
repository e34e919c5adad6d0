import rateLimit from '@fastify/rate-limit'
import type { FastifyInstance, FastifyRequest } from 'fastify'
import { TooManyRequests } from '../errors.ts'
import { addressOf } from './address-of.ts'

declare module 'fastify' {
  interface FastifyContextConfig {
    /** Costly, or worth guessing at: slower than the rest. */
    limits?: 'strict'
  }
}

const MINUTE_MS = 60_000
/** A whole unit may sit behind one address. */
const SESSIONS_AN_ADDRESS = 20
/** Share of a session's requests that may be of the strict kind; a password hash costs some hundredths of a second. */
const STRICT_SHARE = 0.1
/** Share of a session's requests that a token may make, counted for itself: a script that runs wild stops nobody's pages. */
const TOKEN_SHARE = 0.1

/**
 * Keeps any one address, and any one account, from taking the whole server. Counts are kept in memory, for each process
 * by itself: with n processes an address may ask up to n times as often. What must hold across processes, the waits for
 * wrong passwords, is in the database.
 * In: requests a minute for one account; an address may ask twenty times as often, and a tenth as often for what is strict,
 * and so may a token.
 */
export async function registerRateLimit(app: FastifyInstance, requestsPerMinute: number): Promise<void> {
  await app.register(rateLimit, { global: false, timeWindow: MINUTE_MS })
  const byAddress = limiter(app, requestsPerMinute * SESSIONS_AN_ADDRESS)
  const strictByAddress = limiter(app, Math.max(1, Math.floor(requestsPerMinute * STRICT_SHARE)))
  const byAccount = limiter(app, requestsPerMinute, ({ signedIn }) => signedIn?.accountId ?? '')
  const tokenMost = Math.max(1, Math.floor(requestsPerMinute * TOKEN_SHARE))
  const byToken = limiter(app, tokenMost, ({ signedIn }) => signedIn?.token?.id ?? '')
  app.addHook('onRequest', async (request) => {
    await byAddress(request)
    if (request.routeOptions.config.limits === 'strict') await strictByAddress(request)
  })
  app.addHook('preParsing', async (request) => {
    if (request.signedIn) await (request.signedIn.token ? byToken : byAccount)(request)
  })
}

function limiter(app: FastifyInstance, max: number, keyGenerator: (request: FastifyRequest) => string = addressOf) {
  const count = app.createRateLimit({ max, keyGenerator })
  return async (request: FastifyRequest): Promise<void> => {
    const counted = await count(request)
    if (counted.isAllowed || !counted.isExceeded) return
    const detail = `More requests than this server takes from one place. Wait ${counted.ttlInSeconds} seconds.`
    throw new TooManyRequests('too-many-requests', detail, counted.ttlInSeconds)
  }
}
