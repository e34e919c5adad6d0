import fs from 'node:fs'
import http from 'node:http'
import https from 'node:https'
import type { AddressInfo } from 'node:net'
import path from 'node:path'
import type { FastifyBaseLogger } from 'fastify'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildApp } from '../../../server/app.ts'
import { readConfig } from '../../../server/config/config.ts'
import type { OwnSession } from '../../../server/contract/accounts/accounts.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { type Client, createClient } from '../../support/client.ts'
import { cookieOf, cookiesOf } from '../../support/cookies-of.ts'

const TLS_FILES = path.resolve(import.meta.dirname, '../../support/tls')
const SESSION = 'reviewstand_session'

interface Reply {
  status: number
  headers: http.IncomingHttpHeaders
}

/** Asks without any header that a client of ours would add. */
function ask(test: TestApp, options: http.RequestOptions, body?: string): Promise<Reply> {
  const { port } = test.app.server.address() as AddressInfo
  return new Promise((resolve, reject) => {
    const asked = http.request({ host: '127.0.0.1', port, ...options }, (answer) => {
      answer.resume().on('end', () => resolve({ status: answer.statusCode!, headers: answer.headers }))
    })
    asked.on('error', reject).end(body)
  })
}

describe('the server by plain HTTP', () => {
  let test: TestApp
  let client: Client
  beforeAll(async () => {
    test = await buildTestApp()
    client = await test.signedIn({ name: 'somebody' })
  })
  afterAll(() => test.close())

  describe('what another site makes a browser send', () => {
    const body = { name: 'somebody', password: PASSWORD }
    const send = (headers: Record<string, string>) =>
      createClient(test.app.server).tries('POST', '/api/session', body, headers)

    it.each([
      ['across sites', { 'sec-fetch-site': 'cross-site' }],
      ['from a sister host', { 'sec-fetch-site': 'same-site' }],
      ['by hand', { 'sec-fetch-site': 'none' }],
      ['across sites, with our origin claimed', { 'sec-fetch-site': 'cross-site', origin: 'http://127.0.0.1' }],
      ['from another origin', { origin: 'https://evil.example' }],
      ['from another port', { origin: 'http://127.0.0.1:1' }],
      ['from nowhere', { origin: 'null' }],
      ['by an old browser', { referer: 'https://evil.example/page' }],
    ])('is refused: %s', async (_how, headers) => {
      const { status, body: problem, headers: answered } = await send(headers)
      expect(status).toBe(403)
      expect(problem).toMatchObject({ type: 'urn:reviewstand:problem:cross-site-request' })
      expect(answered['set-cookie']).toBeUndefined()
    })

    it('is refused for every method that changes something, cookies or not', async () => {
      for (const method of ['POST', 'PUT', 'PATCH', 'DELETE'] as const) {
        const { status } = await client.tries(method, '/api/session', undefined, { 'sec-fetch-site': 'cross-site' })
        expect([method, status]).toEqual([method, 403])
      }
      expect((await client.tries('GET', '/api/session')).status).toBe(200)
    })

    it('is refused in the forms a page can send without asking', async () => {
      for (const type of ['application/x-www-form-urlencoded', 'multipart/form-data; boundary=x', 'text/plain']) {
        for (const text of ['{"name":"somebody"}', '']) {
          const headers = { 'content-type': type, 'content-length': String(text.length) }
          const { status } = await ask(test, { method: 'POST', path: '/api/session', headers }, text)
          expect([type, status]).toEqual([type, 415])
        }
      }
    })

    it('gets no leave to ask, nor to read', async () => {
      const headers = {
        origin: 'https://evil.example',
        'access-control-request-method': 'POST',
        'access-control-request-headers': 'content-type',
      }
      for (const method of ['OPTIONS', 'GET']) {
        const { headers: answered } = await ask(test, { method, path: '/api/health', headers })
        expect(Object.keys(answered).filter((name) => name.startsWith('access-control'))).toEqual([])
        expect(answered['cross-origin-resource-policy']).toBe('same-origin')
      }
    })
  })

  it('takes what our own pages send, and programs that are no browsers', async () => {
    const { port } = test.app.server.address() as AddressInfo
    const own = createClient(test.app.server)
    const body = { name: 'somebody', password: PASSWORD }
    for (const headers of [
      {},
      { 'sec-fetch-site': 'same-origin' },
      { origin: `http://127.0.0.1:${port}`, host: `127.0.0.1:${port}` },
      { referer: `http://guard.example/sign-in?from=x`, host: 'guard.example' },
    ]) {
      expect((await own.tries('POST', '/api/session', body, headers as Record<string, string>)).status).toBe(200)
    }
  })

  it('sends with every answer the headers that keep a browser safe', async () => {
    for (const where of ['/', '/welcome', '/api/health', '/api/session', '/api/none', '/none.js']) {
      const { headers } = await ask(test, { path: where })
      expect(headers).toMatchObject({
        'x-content-type-options': 'nosniff',
        'referrer-policy': 'no-referrer',
        'cross-origin-opener-policy': 'same-origin',
        'permissions-policy': expect.stringContaining('camera=()'),
      })
      const policy = String(headers['content-security-policy']).split(';')
      expect(policy).toEqual(
        expect.arrayContaining([
          "default-src 'none'",
          "script-src 'self'",
          "style-src 'self'",
          "object-src 'none'",
          "base-uri 'none'",
          "frame-ancestors 'none'",
        ]),
      )
      expect(policy.join()).not.toMatch(/unsafe|\*|data:|https?:/)
      expect(headers['strict-transport-security']).toBeUndefined()
      expect(headers['x-powered-by'] ?? headers.server).toBeUndefined()
    }
  })

  it('keeps answers about people out of every cache', async () => {
    for (const where of ['/api/session', '/api/soldiers', '/api/none']) {
      expect((await client.tries('GET', where)).headers['cache-control']).toBe('no-store')
    }
  })

  it('believes no forwarded header without TRUST_PROXY', async () => {
    const forged = {
      'x-forwarded-for': '203.0.113.9',
      'x-forwarded-proto': 'https',
      'x-forwarded-host': 'evil.example',
      forwarded: 'for=203.0.113.9;proto=https',
    }
    const own = createClient(test.app.server)
    const answer = await own.tries('POST', '/api/session', { name: 'somebody', password: PASSWORD }, forged)
    expect(cookiesOf(answer).map(({ name }) => name)).toContain(SESSION)
    expect(cookiesOf(answer)[0]!.attributes).not.toHaveProperty('secure')
    expect(answer.headers['strict-transport-security']).toBeUndefined()
    const { items } = await own.get<{ items: OwnSession[] }>('/api/account/sessions')
    expect(items[0]!.network).toBe('the server itself')
    const origin = { ...forged, origin: 'https://evil.example' }
    expect((await own.tries('DELETE', '/api/session', undefined, origin)).status).toBe(403)
  })

  it('answers no method that none of its routes has', async () => {
    const signedIn = await client.tries('POST', '/api/session', { name: 'somebody', password: PASSWORD })
    const cookie = `${SESSION}=${cookieOf(signedIn, SESSION)}`
    for (const method of ['TRACE', 'PATCH', 'PROPFIND', 'OPTIONS']) {
      expect([method, (await ask(test, { method, path: '/api/session' })).status]).toEqual([method, 401])
      const { status } = await ask(test, { method, path: '/api/session', headers: { cookie } })
      expect([method, status]).toEqual([method, 404])
    }
  })

  it('logs who tried what they may not, and nothing of what they sent', async () => {
    const lines: string[] = []
    const keep = (entry: object, message: string) => lines.push(JSON.stringify([entry, message]))
    const nothing = () => {}
    const logger: FastifyBaseLogger = {
      level: 'info',
      silent: nothing,
      trace: nothing,
      debug: nothing,
      info: nothing,
      warn: keep as never,
      error: keep as never,
      fatal: keep as never,
      child: () => logger,
    }
    const app = await buildApp({
      config: { demo: false, timeZone: 'UTC' },
      db: test.db,
      clock: () => test.clock.now,
      logger,
    })
    await app.ready()
    const leader = createClient(app.server)
    await test.signedIn({ name: 'one-who-tries', roles: ['grader'] })
    await leader.tries('POST', '/api/session', { name: 'one-who-tries', password: PASSWORD })
    const { accountId } = await leader.get<{ accountId: string }>('/api/session')
    await leader.refused(403, 'POST', '/api/units?name=Ashdown', {
      name: 'Secret unit',
      kind: 'unit',
      parentId: null,
      timeZone: null,
    })
    await app.close()
    expect(lines).toEqual([
      JSON.stringify([{ rule: 'not-allowed', account: accountId, route: 'POST /api/units' }, 'Refused: not-allowed']),
    ])
  })

  it('takes no body beyond its limit, however it comes', async () => {
    const large = JSON.stringify({ name: 'x'.repeat(1_100_000), password: '' })
    const headers = { 'content-type': 'application/json' }
    expect((await client.refused(413, 'POST', '/api/session', large)).type).toMatch(/body-too-large$/)
    const chunked = await ask(
      test,
      { method: 'POST', path: '/api/session', headers: { ...headers, 'transfer-encoding': 'chunked' } },
      large,
    )
    expect(chunked.status).toBe(413)
  })

  it('waits for nothing without end', async () => {
    const { server } = test.app
    expect(server.headersTimeout).toBeGreaterThan(0)
    expect(server.headersTimeout).toBeLessThanOrEqual(server.requestTimeout)
    // What the largest file may take at half a megabit a second; all else is cut sooner (slow-requests.test.ts).
    expect(server.requestTimeout).toBeLessThanOrEqual(15 * 60_000)
    expect(server.timeout).toBeGreaterThan(0)
    expect(server.keepAliveTimeout).toBeGreaterThan(0)
    expect(test.app.initialConfig).toHaveProperty('handlerTimeout', 90_000)
    const settings = await test.db.$queryRawUnsafe(`
      SELECT name, setting FROM pg_settings
      WHERE name IN ('statement_timeout', 'idle_in_transaction_session_timeout') ORDER BY name`)
    expect(settings).toEqual([
      { name: 'idle_in_transaction_session_timeout', setting: '60000' },
      { name: 'statement_timeout', setting: '60000' },
    ])
  })

  it('ends the wait for an answer that does not come', async () => {
    const app = await buildApp({
      config: { demo: false, timeZone: 'UTC' },
      db: test.db,
      clock: () => new Date(),
      logger: false,
    })
    app.get('/api/hangs', { config: { open: true }, handlerTimeout: 20 }, () => new Promise(() => {}))
    await app.ready()
    const problem = await createClient(app.server).refused(503, 'GET', '/api/hangs')
    expect(problem.type).toBe('urn:reviewstand:problem:took-too-long')
    await app.close()
  })

  it('limits no one here, so that other tests are about what they say', async () => {
    for (let time = 0; time < 50; time += 1) expect((await client.tries('GET', '/api/session')).status).toBe(200)
  })
})

describe('the rate limit', () => {
  it('is limited for each account, and more strictly for what is costly or worth guessing at', async () => {
    const test = await buildTestApp({ requestsPerMinute: 40 })
    try {
      const client = await test.signedIn({ name: 'somebody' })
      const other = await test.signedIn({ name: 'somebody-else' })
      for (let time = 0; time < 40; time += 1) expect((await client.tries('GET', '/api/session')).status).toBe(200)
      const { status, headers, body } = await client.tries('GET', '/api/session')
      expect({ status, body }).toMatchObject({
        status: 429,
        body: { type: 'urn:reviewstand:problem:too-many-requests' },
      })
      expect(Number(headers['retry-after'])).toBeGreaterThan(0)
      expect((await other.tries('GET', '/api/session')).status).toBe(200)

      const look = () => createClient(test.app.server).tries('POST', '/api/welcome/look', { token: 'guess' })
      const statuses = await Promise.all(Array.from({ length: 5 }, look))
      expect(statuses.map((answer) => answer.status).sort()).toContain(429)
      expect((await other.tries('GET', '/api/session')).status).toBe(200)
    } finally {
      await test.close()
    }
  })

  it('is limited for an address, whoever it says it is', async () => {
    const test = await buildTestApp({ requestsPerMinute: 30 })
    try {
      const statuses = new Set<number>()
      for (let time = 0; time < 620; time += 1) {
        const cookie = `${SESSION}=${String(time).padStart(43, 'A')}`
        statuses.add((await ask(test, { path: '/api/session', headers: { cookie } })).status)
      }
      expect([...statuses]).toEqual([401, 429])
    } finally {
      await test.close()
    }
  })
})

describe('the server by TLS', () => {
  const { tls } = readConfig({
    TLS_CERT_FILE: path.join(TLS_FILES, 'localhost.cert.pem'),
    TLS_KEY_FILE: path.join(TLS_FILES, 'localhost.key.pem'),
  })
  let test: TestApp
  beforeAll(async () => {
    test = await buildTestApp({ tls })
  })
  afterAll(() => test.close())

  const secure = (options: https.RequestOptions, body?: object): Promise<Reply> =>
    new Promise((resolve, reject) => {
      const { port } = test.app.server.address() as AddressInfo
      const ca = fs.readFileSync(path.join(TLS_FILES, 'localhost.cert.pem'))
      const headers = { 'content-type': 'application/json', ...options.headers }
      const asked = https.request({ host: '127.0.0.1', port, ca, ...options, headers }, (answer) => {
        answer.resume().on('end', () => resolve({ status: answer.statusCode!, headers: answer.headers }))
      })
      asked.on('error', reject).end(body && JSON.stringify(body))
    })
  const signIn = () => secure({ method: 'POST', path: '/api/session' }, { name: 'office', password: PASSWORD })

  it('binds its cookies to this host, and takes them under no other name', async () => {
    const cookies = cookiesOf((await signIn()) as never)
    expect(cookies.map(({ name }) => name)).toEqual([`__Host-${SESSION}`, '__Host-reviewstand_device'])
    for (const { attributes } of cookies) {
      expect(attributes).toMatchObject({ secure: '', httponly: '', samesite: 'Strict', path: '/' })
      expect(attributes).not.toHaveProperty('domain')
    }
    const whoIs = (cookie: string) => secure({ path: '/api/session', headers: { cookie } })
    const { value } = cookies[0]!
    expect((await whoIs(`__Host-${SESSION}=${value}`)).status).toBe(200)
    expect((await whoIs(`${SESSION}=${value}`)).status).toBe(401)
  })

  it('demands TLS from then on, but not for localhost, which is everybody’s', async () => {
    const demanded = async (host: string) =>
      (await secure({ path: '/', headers: { host } })).headers['strict-transport-security']
    expect(await demanded('guard.example')).toBe('max-age=31536000; includeSubDomains')
    expect(await demanded('localhost')).toBeUndefined()
  })

  it('takes no TLS older than 1.2, and no plain HTTP', async () => {
    await expect(secure({ path: '/', maxVersion: 'TLSv1.1', minVersion: 'TLSv1' })).rejects.toThrow()
    expect((await secure({ path: '/api/health', maxVersion: 'TLSv1.2' })).status).toBe(200)
    await expect(ask(test, { path: '/api/health' })).rejects.toThrow()
  })
})

describe('the server behind a proxy', () => {
  it('believes what a proxy of TRUST_PROXY says, and none that it does not name', async () => {
    const test = await buildTestApp({ trustProxy: ['127.0.0.0/8'] })
    const stranger = await buildTestApp({ trustProxy: ['192.0.2.10'] })
    const headers = {
      // Whoever asked put the first one there; the proxy added the second.
      'x-forwarded-for': '198.51.100.1, 203.0.113.9',
      'x-forwarded-proto': 'https',
      'x-forwarded-host': 'guard.example',
    }
    try {
      const body = { name: 'office', password: PASSWORD }
      const answer = await createClient(test.app.server).tries('POST', '/api/session', body, {
        ...headers,
        origin: 'https://guard.example',
      })
      const [session] = cookiesOf(answer)
      expect(session).toMatchObject({ name: `__Host-${SESSION}`, attributes: { secure: '' } })
      expect(answer.headers['strict-transport-security']).toMatch(/^max-age/)
      const cookie = `${session!.name}=${session!.value}`
      const { body: list } = await createClient(test.app.server).tries('GET', '/api/account/sessions', undefined, {
        ...headers,
        cookie,
      })
      expect((list as { items: OwnSession[] }).items[0]!.network).toBe('203.0.113.x')

      const told = await createClient(stranger.app.server).tries('POST', '/api/session', body, headers)
      expect(cookiesOf(told)[0]).toMatchObject({ name: SESSION })
      expect(told.headers['strict-transport-security']).toBeUndefined()
    } finally {
      await test.close()
      await stranger.close()
    }
  })
})
