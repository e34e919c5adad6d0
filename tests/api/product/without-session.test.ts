import { randomUUID } from 'node:crypto'
import pg from 'pg'
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest'
import { createSetupLink } from '../../../server/accounts/services/setup/create-setup-link.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { routesOf } from '../../support/routes-of.ts'

/** What answers without a session, and nothing else does. */
const OPEN = [
  'GET /api/health',
  'GET /api/health/alive',
  'GET /api/health/ready',
  'GET /api/openapi.json',
  'POST /api/session',
  'DELETE /api/session',
  'POST /api/session/factor',
  'POST /api/session/factor/passkey-request',
  'POST /api/session/passkey-request',
  'POST /api/session/passkey',
  'GET /api/sign-on/answering',
  'POST /api/sign-on/start',
  'GET /api/sign-on/return/:id',
  'POST /api/sign-on/leave',
  'POST /api/sign-on/logout/:id',
  'POST /api/setup',
  'POST /api/certificates/verify',
  'POST /api/welcome',
  'POST /api/welcome/look',
]

let test: TestApp
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())

describe('without a session', () => {
  it('every route is 401 but the open ones', async () => {
    const routes = routesOf(test.app)
    expect(routes.length).toBeGreaterThan(30)
    const closed = routes.filter(({ method, path }) => !OPEN.includes(`${method} ${path}`))
    expect(closed).toHaveLength(routes.length - OPEN.length)
    for (const { method, path } of closed) {
      const problem = await test.nobody.refused(401, method, path.replace(/:\w+/g, randomUUID()))
      expect(problem.type, `${method} ${path}`).toBe('urn:reviewstand:problem:not-signed-in')
    }
  })

  it('no spelling of an address gets past', async () => {
    for (const path of ['/%61pi/units', '/api/%75nits', '/API/units', '//api/units', '/api//units', '/api/units/']) {
      expect((await test.nobody.tries('GET', path)).status, path).toBeOneOf([401, 404])
    }
    expect((await test.nobody.tries('PUT', `/%61pi/sheets/${randomUUID()}`, {})).status).toBe(401)
    expect((await test.nobody.tries('GET', '/%61pi/health')).status).toBe(200)
  })

  it('not even the addresses that are not there are told', async () => {
    await test.nobody.refused(401, 'GET', '/api/nonsense')
    const problem = await test.office.refused(404, 'GET', '/api/nonsense')
    expect(problem.type).toBe('urn:reviewstand:problem:no-such-address')
    await test.office.refused(404, 'PATCH', '/api/units')
  })

  it('a cookie of nonsense is none', async () => {
    for (const value of ['', '%00', 'ÿ', 'null', 'a'.repeat(4000), "'; DELETE FROM session; --"]) {
      await test.nobody.refused(401, 'GET', '/api/units', undefined, {
        cookie: `reviewstand_session=${encodeURI(value)}`,
      })
    }
  })
})

describe('health', () => {
  it('says that server and database answer', async () => {
    expect(await test.nobody.get('/api/health')).toMatchObject({ status: 'ok', demo: null })
  })

  it('does not, while the database cannot be asked, and recovers by itself', async () => {
    const other = await buildTestApp()
    const name = new URL(other.databaseUrl).pathname.slice(1)
    const admin = new pg.Client({ connectionString: inject('testServer') })
    await admin.connect()
    await admin.query(`ALTER DATABASE ${name} ALLOW_CONNECTIONS false`)
    await admin.query('SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = $1', [name])
    const problem = await other.nobody.refused(503, 'GET', '/api/health')
    expect(problem.type).toBe('urn:reviewstand:problem:database-unavailable')
    await admin.query(`ALTER DATABASE ${name} ALLOW_CONNECTIONS true`)
    await admin.end()
    expect(await other.nobody.get('/api/health')).toMatchObject({ status: 'ok' })
    await other.close()
  })
})

describe('the first account', () => {
  it('comes from a one-time link, once, while there is none', async () => {
    const own = await buildTestApp()
    const token = await createSetupLink({ db: own.db, clock: () => own.clock.now })
    const body = { token, name: 'first', password: 'a few words make a good one' }
    const wrong = await own.nobody.refused(401, 'POST', '/api/setup', { ...body, token: 'not the token' })
    expect(wrong.type).toBe('urn:reviewstand:problem:link-used-or-expired')
    const short = await own.nobody.refused(422, 'POST', '/api/setup', { ...body, password: 'too short' })
    expect(short.errors).toMatchObject([{ pointer: '/password' }])
    const there = await own.nobody.refused(409, 'POST', '/api/setup', body)
    expect(there.type).toBe('urn:reviewstand:problem:already-set-up')
    await own.sql('DELETE FROM session')
    await own.sql('DELETE FROM account')
    await own.nobody.post('/api/setup', body)
    await own.nobody.post('/api/session', { name: 'first', password: body.password }, 200)
    expect(await own.nobody.get('/api/session')).toMatchObject({ name: 'first', roles: ['office', 'administrator'] })
    const used = await own.nobody.refused(401, 'POST', '/api/setup', body)
    expect(used.type).toBe('urn:reviewstand:problem:link-used-or-expired')
    await own.close()
  })
})
