import { execFile } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { promisify } from 'node:util'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { FactorOverview } from '../../../server/contract/accounts/factors.ts'
import type { Session } from '../../../server/contract/accounts/session.ts'
import { setUpApp } from '../../support/authenticator-app.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { type Client, createClient } from '../../support/client.ts'
import { routesOf } from '../../support/routes-of.ts'

const RULES = '/api/factor-rules'
const STEP_MS = 30_000
const run = promisify(execFile)

let test: TestApp
let admin: Client
let made = 0
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())
beforeEach(async () => {
  test.clock.now = new Date('2026-06-15T12:00:00Z')
  await test.sql('DELETE FROM factor_rule')
  admin = await test.signedIn({ name: `admin-${++made}`, roles: ['administrator'] })
})

const later = (milliseconds: number) => {
  test.clock.now = new Date(test.clock.now.getTime() + milliseconds)
}
const demand = (role: string, fromDay = '2026-06-15') => admin.put(RULES, { rules: [{ role, fromDay }] }, 200)
const enter = async (name: string) => {
  const client = createClient(test.app.server)
  return { client, answer: await client.tries('POST', '/api/session', { name, password: PASSWORD }) }
}
const somebody = async (roles = ['office']) => {
  const name = `somebody-${++made}`
  return { name, client: await test.signedIn({ name, roles }) }
}
const idOf = async (name: string) =>
  (await test.sql<{ id: string }>('SELECT id FROM account WHERE name = $1', [name]))[0]!.id

describe('a role that needs a second factor', () => {
  it('leads whoever lacks one to set one up at the next sign-in, and to nothing else', async () => {
    const { name, client: before } = await somebody()
    await demand('office')
    await before.get('/api/units')
    const { client, answer } = await enter(name)
    expect(answer).toMatchObject({ status: 200, body: { onlyEnrols: true } })
    const open: string[] = []
    for (const { method, path } of routesOf(test.app)) {
      const { status, body } = await client.tries(method, path.replace(/:\w+/g, randomUUID()))
      const isRefused = status === 403 && JSON.stringify(body).includes('second-factor-required')
      if (!isRefused && !path.startsWith('/api/session') && status !== 404) open.push(`${method} ${path}`)
      if (`${method} ${path}` === 'DELETE /api/session' || path === '/api/sign-on/leave')
        await client.tries('POST', '/api/session', { name, password: PASSWORD })
    }
    expect(
      open.filter((route) => !/health|openapi|setup|welcome|sign-on\/|certificates\/verify/.test(route)).sort(),
    ).toEqual([
      'DELETE /api/account/factors/reset',
      'GET /api/account/confirmation',
      'GET /api/account/factors',
      'POST /api/account/confirmation',
      'POST /api/account/confirmation/passkey-request',
      'POST /api/account/factors/app',
      'POST /api/account/factors/passkeys',
      'POST /api/account/factors/passkeys/creation',
      'PUT /api/account/factors/app',
    ])
    await setUpApp(test, client)
    await client.get('/api/units')
    expect(await client.get<Session>('/api/session')).toMatchObject({ onlyEnrols: false })
  })

  it('holds from its day on, in the time of the unit, and for those who have one already not at all', async () => {
    const { name, client } = await somebody()
    await demand('office', '2026-06-16')
    expect((await enter(name)).answer.body).toMatchObject({ onlyEnrols: false })
    later(12 * 3_600_000)
    expect((await enter(name)).answer.body).toMatchObject({ onlyEnrols: true })
    test.clock.now = new Date('2026-06-15T12:00:00Z')
    const app = await setUpApp(test, client)
    later(13 * 3_600_000)
    const again = await enter(name)
    expect(again.answer.status).toBe(202)
    expect((await again.client.tries('POST', '/api/session/factor', { code: app.code() })).status).toBe(200)
    await again.client.get('/api/units')
  })

  it('keeps the last factor, so that nobody drops it', async () => {
    const { client } = await somebody()
    await setUpApp(test, client)
    await demand('office')
    const problem = await client.refused(409, 'DELETE', '/api/account/factors/app')
    expect(problem.type).toMatch(/factor-required$/)
    await client.get('/api/account/factors')
    expect(await client.get('/api/account/factors')).toMatchObject({ app: {}, recoveryCodes: 10 })
  })

  it('is asked of administrators only by one who has a factor, so that it is known to work', async () => {
    const refused = await admin.refused(409, 'PUT', RULES, {
      rules: [{ role: 'administrator', fromDay: '2026-06-15' }],
    })
    expect(refused.type).toMatch(/own-factor-first$/)
    await setUpApp(test, admin)
    await demand('administrator')
    const other = await somebody(['administrator'])
    const { client, answer } = await enter(other.name)
    expect(answer.body).toMatchObject({ onlyEnrols: true })
    await setUpApp(test, client)
    await client.get('/api/accounts')
  })

  it('is told with how many accounts lack one, is on record, and is nobody else’s to see', async () => {
    const { client } = await somebody(['grader'])
    const before = (await admin.get<FactorOverview>(RULES)).roles.find(({ role }) => role === 'grader')
    await setUpApp(test, client)
    const after = (await admin.get<FactorOverview>(RULES)).roles.find(({ role }) => role === 'grader')
    expect([before!.without - after!.without, before!.accounts - after!.accounts]).toEqual([1, 0])
    await demand('grader', '2026-07-01')
    const [entry] = await test.sql<{ action: string; after: unknown }>(
      "SELECT action, after FROM record_entry WHERE action LIKE 'account.factor-rules%' ORDER BY seq DESC LIMIT 1",
    )
    expect(entry!.after).toEqual({ rules: [{ role: 'grader', fromDay: '2026-07-01' }] })
    // Its session ran out when the clock of a test before went on.
    await test.office.tries('POST', '/api/session', { name: 'office', password: PASSWORD })
    await test.office.refused(404, 'GET', RULES)
    await test.office.refused(404, 'PUT', RULES, { rules: [] })
    const twice = [
      { role: 'office', fromDay: '2026-07-01' },
      { role: 'office', fromDay: '2026-08-01' },
    ]
    await admin.refused(422, 'PUT', RULES, { rules: twice })
  })
})

describe('a lost phone', () => {
  it('is reset by another administrator with a reason, ends all sessions, and is told to its owner until they know', async () => {
    const { name, client } = await somebody()
    const app = await setUpApp(test, client)
    later(STEP_MS)
    const half = await enter(name)
    const id = await idOf(name)
    await admin.refused(422, 'POST', `/api/accounts/${id}/factors/reset`, { reason: ' ' })
    await admin.post(`/api/accounts/${id}/factors/reset`, { reason: 'Lost on the range' }, 200)
    await client.refused(401, 'GET', '/api/session')
    expect((await half.client.tries('POST', '/api/session/factor', { code: app.code() })).status).toBe(401)
    const rows = await test.sql(
      'SELECT 1 FROM authenticator_app WHERE account_id = $1 UNION ALL SELECT 1 FROM recovery_code WHERE account_id = $1',
      [id],
    )
    expect(rows).toEqual([])
    const again = await enter(name)
    expect(again.answer).toMatchObject({
      status: 200,
      body: { factorReset: { by: `admin-${made - 1}`, reason: 'Lost on the range', at: '2026-06-15T12:00:30.000Z' } },
    })
    await again.client.tries('DELETE', '/api/account/factors/reset')
    expect(await again.client.get<Session>('/api/session')).toMatchObject({ factorReset: null })
    const [entry] = await test.sql<{ reason: string; after: unknown }>(
      "SELECT reason, after FROM record_entry WHERE action = 'account.factors-reset' ORDER BY seq DESC LIMIT 1",
    )
    expect(entry).toEqual({ reason: 'Lost on the range', after: { app: true, passkeys: 0, sessionsEnded: 1 } })
  })

  it('is not one’s own to reset, nor anybody’s who is no administrator', async () => {
    const own = await idOf(`admin-${made}`)
    const problem = await admin.refused(409, 'POST', `/api/accounts/${own}/factors/reset`, { reason: 'Mine' })
    expect(problem.type).toMatch(/own-account$/)
    const { client } = await somebody()
    await client.refused(404, 'POST', `/api/accounts/${own}/factors/reset`, { reason: 'Theirs' })
  })

  it('of the last administrator is reset by a command on the server, which leaves its trace', async () => {
    const { name, client } = await somebody(['administrator'])
    await setUpApp(test, client)
    const env = { ...process.env, DATABASE_URL: test.databaseUrl, REVIEWSTAND_DEMO: 'off' }
    const command = ['--import', 'tsx', 'server/reset-factor.ts']
    const { stdout } = await run(process.execPath, [...command, name], { env })
    expect(stdout).toMatch(/an authenticator app, passkeys: 0\. Sessions ended: 1\./)
    await client.refused(401, 'GET', '/api/session')
    expect((await enter(name)).answer).toMatchObject({ status: 200, body: { factorReset: { by: 'the server' } } })
    const [entry] = await test.sql<{ reason: string }>(
      "SELECT reason FROM record_entry WHERE action = 'account.factors-reset' ORDER BY seq DESC LIMIT 1",
    )
    expect(entry!.reason).toBe('By command on the server')
    await expect(run(process.execPath, [...command, 'nobody at all'], { env })).rejects.toMatchObject({ code: 1 })
  })
})
