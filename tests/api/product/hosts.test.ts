import net, { type AddressInfo } from 'node:net'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { OwnSession } from '../../../server/contract/accounts/accounts.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { createClient } from '../../support/client.ts'
import { cookiesOf } from '../../support/cookies-of.ts'

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp({ hosts: ['review.example.org', '127.0.0.1'], trustProxy: ['127.0.0.0/8'] })
})
afterAll(() => test.close())

/** Sends a request letter by letter as given, for no client sends two hosts. Out: all of the answer. */
function sendRaw(lines: string[]): Promise<string> {
  const { port } = test.app.server.address() as AddressInfo
  return new Promise((resolve, reject) => {
    let answer = ''
    const socket = net.connect(port, '127.0.0.1', () => socket.write(`${lines.join('\r\n')}\r\n\r\n`))
    socket.on('data', (piece) => {
      answer += piece
    })
    socket.on('error', reject)
    socket.on('close', () => resolve(answer))
  })
}

const asking = (...hosts: string[]) =>
  sendRaw(['GET /api/health HTTP/1.1', ...hosts.map((host) => `Host: ${host}`), 'Connection: close'])

describe('the host that a request names', () => {
  it('is one of ours, whatever its case and port', async () => {
    for (const host of ['review.example.org', 'REVIEW.example.org:8443', '127.0.0.1']) {
      expect(await asking(host), host).toMatch(/^HTTP\/1\.1 200 /)
    }
  })

  it('is refused where it is another’s', async () => {
    for (const host of ['evil.example', 'review.example.org.evil.example', 'localhost', '192.0.2.10']) {
      const answer = await asking(host)
      expect(answer, host).toMatch(/^HTTP\/1\.1 400 /)
      expect(answer, host).toContain('urn:reviewstand:problem:unknown-host')
    }
  })

  it('is refused where there are two, in either order, alike or not', async () => {
    for (const hosts of [
      ['review.example.org', 'evil.example'],
      ['evil.example', 'review.example.org'],
      ['review.example.org', 'review.example.org'],
    ] as const) {
      expect(await asking(...hosts), hosts.join()).toMatch(/^HTTP\/1\.1 400 /)
    }
  })
})

describe('an address that a proxy forwards', () => {
  it('is believed only where it is one; else it is the proxy’s own', async () => {
    for (const [forwarded, network] of [
      ['203.0.113.9', '203.0.113.x'],
      ['<script>alert(1)</script>', 'the server itself'],
      ['not-an-address', 'the server itself'],
      ['999.999.999.999', 'the server itself'],
    ] as const) {
      const client = createClient(test.app.server)
      const headers = { 'x-forwarded-for': forwarded }
      const signIn = await client.tries('POST', '/api/session', { name: 'office', password: PASSWORD }, headers)
      expect(signIn.status, forwarded).toBe(200)
      const cookie = cookiesOf(signIn).map(({ name, value }) => `${name}=${value}`)
      const { items } = (
        await createClient(test.app.server).tries('GET', '/api/account/sessions', undefined, {
          cookie: cookie.join('; '),
        })
      ).body as { items: OwnSession[] }
      expect(items.find(({ isThisOne }) => isThisOne)?.network, forwarded).toBe(network)
    }
  })
})
