import { randomBytes, randomUUID } from 'node:crypto'
import http from 'node:http'
import type { AddressInfo } from 'node:net'
import { brotliCompressSync, createGzip, gzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { cookiesOf } from '../../support/cookies-of.ts'
import { makeTestSetting, type TestSetting } from '../../support/factories.ts'

const LIMIT = 1_048_576

let test: TestApp
let setting: TestSetting
let cookie: string
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
  const signIn = await test.nobody.tries('POST', '/api/session', { name: 'office', password: PASSWORD })
  cookie = cookiesOf(signIn)
    .map(({ name, value }) => `${name}=${value}`)
    .join('; ')
})
afterAll(() => test.close())

interface Sent {
  readonly status: number
  readonly type: string
  readonly headers: Headers
}

async function send(method: string, path: string, body: Uint8Array, headers: Record<string, string>): Promise<Sent> {
  const { port } = test.app.server.address() as AddressInfo
  const answer = await fetch(`http://127.0.0.1:${port}${path}`, {
    method,
    headers: { cookie, 'content-type': 'application/json', ...headers },
    body: new Uint8Array(body),
  })
  const said = (await answer.json()) as { type?: string }
  return { status: answer.status, type: said.type ?? '', headers: answer.headers }
}

const gzip = { 'content-encoding': 'gzip' }
const sheetPath = () => `/api/sheets/${randomUUID()}`
const packed = (what: unknown) => gzipSync(JSON.stringify(what))

describe('a body of JSON that is compressed with gzip', () => {
  it('is taken as what it holds', async () => {
    const path = sheetPath()
    expect((await send('PUT', path, packed(setting.sheet()), gzip)).status).toBe(201)
    expect(await test.office.get(path)).toMatchObject({ state: 'counted' })
    expect((await send('PUT', sheetPath(), packed(setting.sheet()), { 'content-encoding': 'X-GZip' })).status).toBe(201)
  })

  it('may hold a mebibyte, and no byte more', async () => {
    const holding = (bytes: number) => {
      const rest = bytes - JSON.stringify({ name: '', password: '' }).length
      return packed({ name: 'x'.repeat(rest), password: '' })
    }
    expect((await send('POST', '/api/session', holding(LIMIT), gzip)).status).toBe(422)
    expect(await send('POST', '/api/session', holding(LIMIT + 1), gzip)).toMatchObject({
      status: 413,
      type: 'urn:reviewstand:problem:body-too-large',
    })
  })

  it('is refused when it is too large as it comes, before it is inflated', async () => {
    const noise = gzipSync(randomBytes(2 * LIMIT))
    expect((await send('PUT', sheetPath(), noise, gzip)).status).toBe(413)
  })

  it('is answered where it swells, though more of it is still to come, and its inflating ends', async () => {
    const { port } = test.app.server.address() as AddressInfo
    const bomb = createGzip()
    const answered = new Promise<http.IncomingMessage>((resolve, reject) => {
      const sent = http.request({
        host: '127.0.0.1',
        port,
        method: 'PUT',
        path: sheetPath(),
        headers: { cookie, 'content-type': 'application/json', ...gzip },
      })
      // Never ended: an answer only at the end would never come.
      bomb.on('data', (piece) => sent.write(piece))
      sent.on('response', resolve).on('error', reject)
    })
    bomb.write(Buffer.alloc(20 * LIMIT, '['))
    bomb.flush()
    const { statusCode, headers } = await answered
    bomb.destroy()
    expect(statusCode).toBe(413)
    expect(headers.connection).toBe('close')
  })

  it('is 400 where it is no gzip, is cut off, or holds no JSON', async () => {
    const whole = packed(setting.sheet())
    const notGzip = { status: 400, type: 'urn:reviewstand:problem:not-gzip' }
    expect(await send('PUT', sheetPath(), Buffer.from('{}'), gzip)).toMatchObject(notGzip)
    expect(await send('PUT', sheetPath(), whole.subarray(0, whole.length - 12), gzip)).toMatchObject(notGzip)
    const noJson = { status: 400, type: 'urn:reviewstand:problem:malformed-json' }
    expect(await send('PUT', sheetPath(), gzipSync('{"a": '), gzip)).toMatchObject(noJson)
  })
})

describe('a body compressed in any other way', () => {
  const refused = { status: 415, type: 'urn:reviewstand:problem:content-encoding' }
  it.each([
    ['br', 'application/json', 'gzip'],
    ['deflate', 'application/json', 'gzip'],
    ['identity, gzip', 'application/json', 'gzip'],
    ['gzip, gzip', 'application/json', 'gzip'],
    ['gzip', 'application/octet-stream', 'identity'],
  ])('is refused before it is read: %s as %s', async (encoding, type, taken) => {
    const body = encoding === 'br' ? brotliCompressSync('{}') : gzipSync('{}')
    const path = type === 'application/json' ? '/api/session' : '/api/imports'
    const answer = await send('POST', path, body, { 'content-encoding': encoding, 'content-type': type })
    expect(answer).toMatchObject(refused)
    expect(answer.headers.get('accept-encoding')).toBe(taken)
  })
})

describe('a file to take in that comes as JSON', () => {
  it('is inflated to no more than other JSON', async () => {
    const rows = packed([{ rosterNumber: '1', familyName: 'x'.repeat(2 * LIMIT) }])
    expect((await send('POST', '/api/imports', rows, gzip)).status).toBe(413)
  })
})
