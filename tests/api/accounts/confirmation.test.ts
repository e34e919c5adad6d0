import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Confirmation } from '../../../server/contract/accounts/factors.ts'
import { setUpApp } from '../../support/authenticator-app.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import type { Client, Method } from '../../support/client.ts'
import { createClient } from '../../support/client.ts'
import { makeUnit } from '../../support/factories.ts'
import { routesOf } from '../../support/routes-of.ts'

const MINUTE_MS = 60_000
const CONFIRMATION = '/api/account/confirmation'

let test: TestApp
let made = 0
beforeAll(async () => {
  test = await buildTestApp()
  await makeUnit(test.office)
})
afterAll(() => test.close())
beforeEach(() => {
  test.clock.now = new Date('2026-06-15T12:00:00Z')
})

const later = (milliseconds: number) => {
  test.clock.now = new Date(test.clock.now.getTime() + milliseconds)
}
const ROLES = ['office', 'administrator']
const somebody = (roles = ROLES) => test.signedIn({ name: `clerk-${++made}`, roles, unitId: null })
const invitation = () => ({ name: `invited-${++made}`, roles: ['office'], soldierId: null, unitId: null })
const invites = async (client: Client) => (await client.tries('POST', '/api/accounts', invitation())).status
const confirms = async (client: Client, body: object) => (await client.tries('POST', CONFIRMATION, body)).status

/** What cannot be undone, lets somebody in, or is a second person's word. */
const ASKS_AGAIN = [
  'DELETE /api/account/factors/app',
  'DELETE /api/account/factors/passkeys/:id',
  'GET /api/backups/:name/file',
  'POST /api/account/factors/app',
  'POST /api/account/factors/passkeys',
  'POST /api/account/factors/passkeys/creation',
  'POST /api/account/factors/recovery-codes',
  'POST /api/account/tokens',
  'POST /api/accounts',
  'POST /api/accounts/:id/factors/reset',
  'POST /api/accounts/:id/link',
  'POST /api/accounts/several',
  'POST /api/amendments/:id/decision',
  'POST /api/appeals/:id/decision',
  'POST /api/approvals',
  'POST /api/soldiers/:id/removal',
  'POST /api/standards/:id/publish',
  'PUT /api/account/factors/app',
  'PUT /api/accounts/:id',
  'PUT /api/accounts/:id/disabled',
  'PUT /api/factor-rules',
  'PUT /api/sign-on-providers/:id',
  'PUT /api/sign-on-providers/page',
]

describe('what cannot be undone', () => {
  it('asks again who one is, ten minutes after the last time; and nothing else does', async () => {
    const client = await somebody()
    later(10 * MINUTE_MS)
    const asked: string[] = []
    for (const { method, path } of routesOf(test.app)) {
      const { status, body } = await client.tries(method as Method, path.replace(/:\w+/g, randomUUID()))
      if (status === 403 && JSON.stringify(body).includes('confirm-identity')) asked.push(`${method} ${path}`)
      // Some end the session, or all of them.
      if ((method === 'DELETE' && path.includes('session')) || path === '/api/sign-on/leave') {
        await client.tries('POST', '/api/session', { name: `clerk-${made}`, password: PASSWORD })
        await test.sql("UPDATE session SET confirmed_at = '2026-06-15T12:00:00Z'")
      }
    }
    expect(asked.sort()).toEqual(ASKS_AGAIN)
  })

  it('is refused before anything is done, and done after it is confirmed', async () => {
    const client = await somebody()
    later(10 * MINUTE_MS - 1)
    expect(await invites(client)).toBe(201)
    later(1)
    const body = invitation()
    const problem = await client.refused(403, 'POST', '/api/accounts', body)
    expect(problem.type).toBe('urn:reviewstand:problem:confirm-identity')
    expect(await test.sql('SELECT 1 FROM account WHERE name = $1', [body.name])).toEqual([])
    const { confirmedUntil } = await client.post<Confirmation>(CONFIRMATION, { password: PASSWORD }, 200)
    expect(confirmedUntil).toBe('2026-06-15T12:20:00.000Z')
    await client.post('/api/accounts', body)
    later(10 * MINUTE_MS)
    expect(await invites(client)).toBe(403)
  })

  it('is asked for in each session for itself', async () => {
    const client = await somebody()
    const elsewhere = createClient(test.app.server)
    await elsewhere.tries('POST', '/api/session', { name: `clerk-${made}`, password: PASSWORD })
    later(10 * MINUTE_MS)
    expect(await confirms(client, { password: PASSWORD })).toBe(200)
    expect([await invites(client), await invites(elsewhere)]).toEqual([201, 403])
  })

  it('is done by no token', async () => {
    const client = await somebody()
    const body = { name: 'Script', scopes: ['roster:write', 'standards:read', 'sheets:write'], days: 1 }
    const { token } = await client.post<{ token: string }>('/api/account/tokens', body)
    const headers = { authorization: `Bearer ${token}` }
    for (const route of [...ASKS_AGAIN, `POST ${CONFIRMATION}`, `GET ${CONFIRMATION}`]) {
      const [method, path] = route.split(' ') as [Method, string]
      const address = path.replace(/:\w+/g, randomUUID())
      const problem = await test.nobody.refused(403, method, address, undefined, headers)
      expect(problem.type, route).toMatch(/not-for-tokens$/)
    }
  })
})

describe('showing who one is', () => {
  it('takes the password where there is no second factor, and counts wrong ones', async () => {
    const client = await somebody()
    expect(await client.get<Confirmation>(CONFIRMATION)).toEqual({
      app: false,
      passkey: false,
      recoveryCodes: 0,
      password: true,
      confirmedUntil: '2026-06-15T12:10:00.000Z',
    })
    later(10 * MINUTE_MS)
    for (let wrong = 0; wrong < 11; wrong += 1) {
      const problem = await client.refused(422, 'POST', CONFIRMATION, { password: 'wrong' })
      expect(problem.errors).toMatchObject([{ pointer: '/password', rule: 'wrong-password' }])
    }
    await client.refused(429, 'POST', CONFIRMATION, { password: PASSWORD })
    expect((await client.get<Confirmation>(CONFIRMATION)).confirmedUntil).toBeNull()
  })

  it('takes the second factor where there is one, each code once, and not the password', async () => {
    const client = await somebody()
    const app = await setUpApp(test, client)
    later(10 * MINUTE_MS)
    expect(await client.get<Confirmation>(CONFIRMATION)).toMatchObject({ app: true, password: false })
    const problem = await client.refused(422, 'POST', CONFIRMATION, { password: PASSWORD })
    expect(problem.errors).toMatchObject([{ pointer: '/password', rule: 'factor-needed' }])
    expect(await confirms(client, { code: app.code() })).toBe(200)
    expect(await invites(client)).toBe(201)
    later(10 * MINUTE_MS)
    const code = app.code()
    const stranger = createClient(test.app.server)
    await stranger.tries('POST', '/api/session', { name: `clerk-${made - 1}`, password: PASSWORD })
    expect((await stranger.tries('POST', '/api/session/factor', { code })).status).toBe(200)
    expect(await confirms(client, { code })).toBe(422)
    expect(await confirms(client, { code: app.recoveryCodes[2]! })).toBe(200)
    expect(await confirms(client, { code: app.recoveryCodes[2]! })).toBe(422)
  })

  it('counts wrong codes together with those at sign-in, whichever session they come from', async () => {
    const client = await somebody()
    const name = `clerk-${made}`
    const app = await setUpApp(test, client)
    later(MINUTE_MS)
    for (let wrong = 0; wrong < 11; wrong += 1) expect(await confirms(client, { code: '000000' })).toBe(422)
    expect(await confirms(client, { code: app.code() })).toBe(429)
    const stranger = createClient(test.app.server)
    await stranger.tries('POST', '/api/session', { name, password: PASSWORD })
    expect((await stranger.tries('POST', '/api/session/factor', { code: app.code() })).status).toBe(429)
  })

  it('is on record, by what it was done, and without what was given', async () => {
    const client = await somebody()
    await confirms(client, { password: PASSWORD })
    const [entry] = await test.sql<{ action: string; after: unknown }>(
      'SELECT action, after FROM record_entry ORDER BY seq DESC LIMIT 1',
    )
    expect(entry).toEqual({ action: 'session.confirmed', after: { by: 'password' } })
  })

  it('a password is not changed by the password alone where there is a second factor', async () => {
    const client = await somebody()
    const app = await setUpApp(test, client)
    later(10 * MINUTE_MS)
    const body = { current: PASSWORD, next: 'the drums beat at noon' }
    expect((await client.refused(403, 'PUT', '/api/account/password', body)).type).toMatch(/confirm-identity$/)
    expect(await confirms(client, { code: app.code() })).toBe(200)
    await client.put('/api/account/password', body, 200)

    const plain = await somebody()
    later(10 * MINUTE_MS)
    await plain.put('/api/account/password', body, 200)
  })
})
