import net, { type AddressInfo } from 'node:net'
import { setTimeout } from 'node:timers/promises'
import type { FastifyInstance } from 'fastify'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import { buildApp } from '../../../server/app.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'

/** Short, but long beside what a busy machine needs for a piece over loopback. */
const WAITS = { headMs: 1_000, wholeMs: 60_000, windowMs: 1_500, bytesAWindow: 500, lookMs: 100 }
const PIECE_MS = 20

let test: TestApp
let app: FastifyInstance
beforeAll(async () => {
  test = await buildTestApp()
  app = await buildApp({
    config: { demo: false, timeZone: 'UTC' },
    db: test.db,
    clock: () => new Date(),
    logger: false,
    waits: WAITS,
  })
  await app.listen({ port: 0, host: '127.0.0.1' })
})
afterAll(async () => {
  await app.close()
  await test.close()
})

/** Sends a head, then pieces one after the other, until they end or the server closes. Out: what it answered. */
function send(head: string, pieces: Iterable<string>): Promise<string> {
  const { port } = app.server.address() as AddressInfo
  const rest = pieces[Symbol.iterator]()
  return new Promise((resolve) => {
    let answer = ''
    let next: NodeJS.Timeout | undefined
    const socket = net.connect(port, '127.0.0.1', () => {
      socket.write(head)
      next = setInterval(() => {
        const { value, done } = rest.next()
        if (!done && socket.writable) socket.write(value)
      }, PIECE_MS)
    })
    socket.on('data', (piece) => {
      answer += piece
    })
    socket.on('error', () => {}) // Cut while we were sending.
    socket.on('close', () => {
      clearInterval(next)
      resolve(answer)
    })
  })
}

function* repeat(piece: string, times = Number.POSITIVE_INFINITY): Generator<string> {
  for (let time = 0; time < times; time += 1) yield piece
}

const head = (length: number, type = 'application/json') =>
  `POST /api/session HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nContent-Type: ${type}\r\nContent-Length: ${length}\r\n\r\n`

describe('a request that comes byte by byte', () => {
  it('is cut while it is still in its head', async () => {
    expect(await send('GET /api/health HTTP/1.1\r\nX-Slow: ', repeat('a'))).toMatch(/^HTTP\/1\.1 408 /)
  })

  it('is cut in its body as well, though something comes all the time', async () => {
    expect(await send(head(1_000_000), repeat('a'))).toMatch(/^HTTP\/1\.1 408 /)
  })

  it('is cut where nothing comes after the head', async () => {
    expect(await send(head(1_000), [])).toMatch(/^HTTP\/1\.1 408 /)
  })

  it('is cut in a body sent in chunks', async () => {
    const chunked = head(0).replace('Content-Length: 0', 'Transfer-Encoding: chunked')
    expect(await send(chunked, repeat('1\r\na\r\n'))).toMatch(/^HTTP\/1\.1 408 /)
  })
})

describe('a body that comes slowly but steadily', () => {
  it('is waited for longer than one window, and answered', async () => {
    const times = (3 * WAITS.windowMs) / PIECE_MS
    const piece = ' '.repeat(200)
    const answer = await send(head(times * piece.length + 2), [...repeat(piece, times), '{}'])
    expect(answer).toMatch(/^HTTP\/1\.1 422 /)
  })
})

describe('the time a request has in all', () => {
  it('goes by what its route takes: large files have longer', () => {
    // 51 MB at half a megabit a second, and the minute that everybody has.
    expect(app.server.requestTimeout).toBe(60_000 + 51_000_000 / 64)
    expect(app.server.headersTimeout).toBe(WAITS.headMs)
  })
})

describe('a request put in without a network', () => {
  it('is followed by nobody: it has no connection that could be cut', async () => {
    const hasty = await buildApp({
      config: { demo: false, timeZone: 'UTC' },
      db: test.db,
      clock: () => new Date(),
      logger: false,
      // Time is over before it begins.
      waits: { ...WAITS, wholeMs: -60_000, windowMs: 1 },
    })
    const cut = vi.fn()
    hasty.server.on('clientError', cut)
    // Its body is refused unread.
    const headers = { 'content-type': 'text/unheard-of' }
    await hasty.inject({ method: 'POST', url: '/api/session', headers, payload: 'never read' })
    await setTimeout(50)
    await hasty.close()
    expect(cut).not.toHaveBeenCalled()
  })
})
