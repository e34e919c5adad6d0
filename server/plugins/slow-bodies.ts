import { Socket } from 'node:net'
import type { FastifyInstance, FastifyRequest } from 'fastify'

/** How long the server waits for what a client sends, in milliseconds. */
export interface Waits {
  /** Until a request's head has come. */
  readonly headMs: number
  /** Until all of a small request has; a large body has longer, by its size. */
  readonly wholeMs: number
  /** In every such span a body that is still under way must come on … */
  readonly windowMs: number
  /** … by so many bytes. */
  readonly bytesAWindow: number
  /** So often Node looks for heads that do not come. */
  readonly lookMs: number
}

/** A phone at the edge of its network has seconds of silence; whoever sends byte by byte means no good. */
export const WAITS: Waits = { headMs: 20_000, wholeMs: 60_000, windowMs: 20_000, bytesAWindow: 16_384, lookMs: 5_000 }

/** Half a megabit a second; a large file that comes slower is better sent in parts. */
const SLOWEST_BYTES_A_MS = 64

/** So long a body of at most so many bytes may take in all. */
const wholeMsOf = ({ wholeMs }: Waits, mostBytes: number): number => wholeMs + Math.ceil(mostBytes / SLOWEST_BYTES_A_MS)

/**
 * Cuts a request, with a 408, whose body comes too slowly: in one window fewer bytes than it must, or not all of it in the time
 * that its largest size has. What waits to be read by us is not held against the client. Node, which counts for all alike,
 * gets the time of the largest body; a route that takes large ones is given that time before its own.
 * In: so many milliseconds a route otherwise has for its answer.
 */
export function registerSlowBodies(app: FastifyInstance, waits: Waits, answerMs: number): void {
  app.server.requestTimeout = wholeMsOf(waits, app.initialConfig.bodyLimit ?? 0)
  app.addHook('onRoute', (route) => {
    if (route.bodyLimit === undefined) return
    const wholeMs = wholeMsOf(waits, route.bodyLimit)
    route.handlerTimeout ??= wholeMs + answerMs
    app.server.requestTimeout = Math.max(app.server.requestTimeout, wholeMs)
  })
  app.addHook('onRequest', async (request) => {
    if (hasBody(request)) follow(app, request, waits)
  })
}

const hasBody = ({ headers }: FastifyRequest): boolean =>
  headers['transfer-encoding'] !== undefined || Number(headers['content-length'] ?? 0) > 0

function follow(app: FastifyInstance, { raw, routeOptions }: FastifyRequest, waits: Waits): void {
  const { socket } = raw
  // A request put in without a network (`inject`) is there as a whole.
  if (!(socket instanceof Socket)) return
  const until = Date.now() + wholeMsOf(waits, routeOptions.bodyLimit ?? 0)
  let before = socket.bytesRead
  const isOver = () => raw.complete || socket.destroyed
  const isTooSlow = () =>
    Date.now() >= until || (raw.readableLength === 0 && socket.bytesRead - before < waits.bytesAWindow)
  const look = () => {
    if (isOver()) return
    // What came while this process was busy is read first.
    setImmediate(() => {
      if (isOver()) return
      if (isTooSlow()) app.server.emit('clientError', tooSlow(), socket)
      else {
        before = socket.bytesRead
        timer = setTimeout(look, waits.windowMs).unref()
      }
    })
  }
  let timer = setTimeout(look, waits.windowMs).unref()
  raw.once('close', () => clearTimeout(timer))
}

/** As Node itself says of a head that does not come. */
const tooSlow = (): Error => Object.assign(new Error('The body comes too slowly'), { code: 'ERR_HTTP_REQUEST_TIMEOUT' })
