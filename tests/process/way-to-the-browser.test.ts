import fs from 'node:fs'
import http from 'node:http'
import https from 'node:https'
import os from 'node:os'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { postgresOf } from '../support/postgres-of.ts'
import { killProducts, startProduct, startRefused } from '../support/start-product.ts'

const files = path.resolve(import.meta.dirname, '../support/tls')
const TLS_CERT_FILE = path.join(files, 'localhost.cert.pem')
const TLS_KEY_FILE = path.join(files, 'localhost.key.pem')
const CHOSEN = 'the drums beat at noon'
const NEXT = 'walnut carriage under rain'

/** Posts JSON; answers the status and the cookies set. */
function post(url: string, body: object): Promise<{ status: number; cookies: string[] }> {
  const { request } = url.startsWith('https:') ? https : http
  const options = {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    ca: fs.readFileSync(TLS_CERT_FILE),
  }
  return new Promise((resolve, reject) => {
    request(url, options, (answer) => {
      answer
        .resume()
        .on('end', () => resolve({ status: answer.statusCode!, cookies: answer.headers['set-cookie'] ?? [] }))
    })
      .on('error', reject)
      .end(JSON.stringify(body))
  })
}

describe('the way to the browser', () => {
  let data: string
  let settings: Record<string, string>

  beforeEach(() => {
    data = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-data-'))
    settings = { REVIEWSTAND_DATA: data, REVIEWSTAND_DEMO: 'off' }
  })
  afterEach(async () => {
    await killProducts()
    while (postgresOf(data) !== null) await setTimeout(50)
    fs.rmSync(data, { recursive: true })
  })
  const start = (more: Record<string, string>) => startProduct({ ...settings, ...more })

  it('is TLS where certificate and key are given; and a password forgotten is chosen anew at the machine', async () => {
    const first = await start({ TLS_CERT_FILE, TLS_KEY_FILE })
    expect(first.url).toMatch(/^https:/)
    const token = /\/setup#(\S+)/.exec(first.printed())![1]!
    expect((await post(`${first.url}/api/setup`, { token, name: 'Boss', password: CHOSEN })).status).toBe(201)
    const { cookies } = await post(`${first.url}/api/session`, { name: 'Boss', password: CHOSEN })
    expect(cookies[0]).toMatch(/^__Host-reviewstand_session=.*Secure/)
    expect(first.printed()).not.toMatch(/warning|deprecat|FSTDEP/i)
    expect(await first.end('SIGTERM')).toBe(0)

    const refused = await startRefused({ ...settings, REVIEWSTAND_NEW_LINK: 'Bss' })
    expect(refused).toEqual({
      code: 1,
      printed: 'REVIEWSTAND_NEW_LINK is "Bss", but no account of this name can sign in. Correct it or leave it out.\n',
    })
    const second = await start({ REVIEWSTAND_NEW_LINK: 'boss' })
    const link = /\/welcome#(\S+)/.exec(second.printed())![1]!
    expect((await post(`${second.url}/api/session`, { name: 'Boss', password: CHOSEN })).status).toBe(200)
    expect((await post(`${second.url}/api/welcome`, { token: link, password: NEXT })).status).toBe(200)
    expect((await post(`${second.url}/api/session`, { name: 'Boss', password: CHOSEN })).status).toBe(401)
    expect((await post(`${second.url}/api/session`, { name: 'Boss', password: NEXT })).status).toBe(200)
  })

  it('is named when it is open to a network without TLS, and served all the same', async () => {
    const product = await start({ HOST: '0.0.0.0' })
    expect(product.printed()).toMatch(/^Attention: without TLS passwords and grades travel readable/)
    expect(product.printed()).toMatch(/TLS_CERT_FILE.*TRUST_PROXY/)
    expect(product.url).toMatch(/^http:\/\/localhost:\d+$/)
    expect((await fetch(`${product.url}/api/health`)).status).toBe(200)
  })

  it('is refused at the start with what is wrong, beside all other mistakes', async () => {
    const refused = await startRefused({ ...settings, TLS_CERT_FILE, TLS_KEY_FILE: '/nowhere.pem', TRUST_PROXY: 'all' })
    expect(refused.code).toBe(1)
    expect(refused.printed.trim().split('\n')).toEqual([
      expect.stringMatching(/^TRUST_PROXY is "all"; expected addresses or networks/),
      'TLS_KEY_FILE is "/nowhere.pem", which cannot be read (ENOENT).',
    ])
  })
})
