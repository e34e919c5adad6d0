import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { FactorAsked, NewApp, OwnFactors } from '../../../server/contract/accounts/factors.ts'
import { codeOf, setUpApp } from '../../support/authenticator-app.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { type Answer, type Client, createClient } from '../../support/client.ts'
import { cookieOf, cookiesOf } from '../../support/cookies-of.ts'

const SESSION = 'reviewstand_session'
const HALF = 'reviewstand_half'
const MINUTE_MS = 60_000
const STEP_MS = 30_000

let test: TestApp
let made = 0
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())
beforeEach(() => {
  test.clock.now = new Date('2026-06-15T12:00:00Z')
})

const stranger = () => createClient(test.app.server)
const later = (milliseconds: number) => {
  test.clock.now = new Date(test.clock.now.getTime() + milliseconds)
}
const signIn = (client: Client, name: string, password = PASSWORD) =>
  client.tries('POST', '/api/session', { name, password })
const second = (client: Client, code: string) => client.tries('POST', '/api/session/factor', { code })
const ruleOf = ({ body }: Answer) => (body as { type: string }).type.replace('urn:reviewstand:problem:', '')
const factorsOf = (client: Client) => client.get<OwnFactors>('/api/account/factors')

/** Somebody with an authenticator app, some steps after it was set up. */
async function somebody(roles = ['office']) {
  made += 1
  const name = `corporal-${made}`
  const client = await test.signedIn({ name, roles })
  const app = await setUpApp(test, client)
  later(2 * STEP_MS)
  return { name, client, app }
}

/** A browser that gave the right password and stands before the second step. */
async function halfway(name: string): Promise<Client> {
  const client = stranger()
  expect((await signIn(client, name)).status).toBe(202)
  return client
}

const lastActions = async (count: number) =>
  (await test.sql<{ action: string }>('SELECT action FROM record_entry ORDER BY seq DESC LIMIT $1', [count])).map(
    ({ action }) => action,
  )

describe('signing in with a second factor', () => {
  it('takes two steps, and there is no session before the second', async () => {
    const { name, app } = await somebody()
    const client = stranger()
    const first = await signIn(client, name)
    expect(first.status).toBe(202)
    expect(first.body as FactorAsked).toEqual({
      name,
      app: true,
      passkey: false,
      recoveryCodes: 10,
      expiresAt: '2026-06-15T12:06:00.000Z',
    })
    expect(cookieOf(first, SESSION)).toBeUndefined()
    const half = cookiesOf(first).find((cookie) => cookie.name === HALF)!
    expect(half.attributes).toEqual({ path: '/', httponly: '', samesite: 'Strict', 'max-age': '300' })
    await client.refused(401, 'GET', '/api/session')
    await stranger().refused(401, 'GET', '/api/session', undefined, { cookie: `${SESSION}=${half.value}` })

    const done = await second(client, app.code())
    expect(done).toMatchObject({ status: 200, body: { name, onlyEnrols: false } })
    expect(cookiesOf(done).find((cookie) => cookie.name === HALF)?.attributes['max-age']).toBe('0')
    await client.get('/api/units')
    expect(await lastActions(2)).toEqual(['session.opened', 'session.factor-asked'])
    const [entry] = await test.sql<{ after: unknown }>('SELECT after FROM record_entry ORDER BY seq DESC LIMIT 1')
    expect(entry!.after).toEqual({ by: 'password, authenticator app' })
  })

  it('takes a code once, and none of before it', async () => {
    const { name, app } = await somebody()
    const code = app.code()
    const before = app.code(-1)
    expect((await second(await halfway(name), code)).status).toBe(200)
    for (const used of [code, before]) {
      const again = await second(await halfway(name), used)
      expect([again.status, ruleOf(again)]).toEqual([422, 'wrong-code'])
    }
    later(STEP_MS)
    expect((await second(await halfway(name), app.code())).status).toBe(200)
  })

  it('takes a code that comes many times at once only once', async () => {
    const { name, app } = await somebody()
    const clients = [await halfway(name), await halfway(name), await halfway(name), await halfway(name)]
    const answers = await Promise.all(clients.map((client) => second(client, app.code())))
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 422, 422, 422])
  })

  it('takes the code with which the app was set up for nothing else', async () => {
    const client = await test.signedIn({ name: 'once only' })
    const app = await setUpApp(test, client)
    expect((await second(await halfway('once only'), app.code())).status).toBe(422)
  })

  it('takes a code one step early or late, no further, and typed with a blank', async () => {
    for (const [steps, status] of [
      [-2, 422],
      [-1, 200],
      [1, 200],
      [2, 422],
    ] as const) {
      const { name, app } = await somebody()
      later(5 * STEP_MS)
      const code = app.code(steps)
      const answer = await second(await halfway(name), `${code.slice(0, 3)} ${code.slice(3)} `)
      expect(answer.status, String(steps)).toBe(status)
    }
  })

  it('ends what is halfway after five minutes, after it is done, and with a new password', async () => {
    const { name, client, app } = await somebody()
    const late = await halfway(name)
    later(5 * MINUTE_MS)
    expect(ruleOf(await second(late, app.code()))).toBe('sign-in-again')

    const cookie = `${HALF}=${cookieOf(await signIn(stranger(), name), HALF)}`
    const withCookie = (code: string) => stranger().tries('POST', '/api/session/factor', { code }, { cookie })
    expect((await withCookie(app.code())).status).toBe(200)
    later(STEP_MS)
    expect(ruleOf(await withCookie(app.code()))).toBe('sign-in-again')

    const overtaken = await halfway(name)
    await client.tries('POST', '/api/account/confirmation', { code: app.code() })
    later(STEP_MS)
    await client.put('/api/account/password', { current: PASSWORD, next: 'the drums beat at noon' }, 200)
    expect(ruleOf(await second(overtaken, app.code()))).toBe('sign-in-again')
  })

  it('is nothing without the first step, whatever the cookie', async () => {
    const { app } = await somebody()
    for (const cookie of ['', `${HALF}=${'a'.repeat(43)}`, `${HALF}=%00`]) {
      const problem = await stranger().refused(401, 'POST', '/api/session/factor', { code: app.code() }, { cookie })
      expect(problem.type).toMatch(/sign-in-again$/)
    }
  })

  it('does not let one through with the code of another', async () => {
    const [mine, theirs] = [await somebody(), await somebody()]
    expect((await second(await halfway(theirs.name), mine.app.code())).status).toBe(422)
    expect((await second(await halfway(theirs.name), mine.app.recoveryCodes[0]!)).status).toBe(422)
  })

  it('makes wait after ten wrong codes, in however many sign-ins, without a word about the right one', async () => {
    const { name, app } = await somebody()
    for (let wrong = 0; wrong < 11; wrong += 1) {
      expect((await second(await halfway(name), '000000')).status).toBe(422)
    }
    const waiting = await second(await halfway(name), app.code())
    expect([waiting.status, ruleOf(waiting)]).toEqual([429, 'too-many-wrong-codes'])
    expect(waiting.headers['retry-after']).toBe('1')
    later(1000)
    expect((await second(await halfway(name), app.code())).status).toBe(200)
  })

  it('makes an address wait that tries codes of many accounts', async () => {
    const [first, other] = [await somebody(), await somebody()]
    const clients = [await halfway(first.name), await halfway(other.name)] as const
    await test.sql('DELETE FROM password_tries')
    await second(clients[0], '000000')
    // As after a wrong code at each of a hundred accounts: the next one, of yet another account, makes the address wait.
    await test.sql('UPDATE password_tries SET level = 100')
    expect((await second(clients[1], '000000')).status).toBe(422)
    const waiting = await second(clients[1], other.app.code())
    expect([waiting.status, ruleOf(waiting)]).toEqual([429, 'too-many-wrong-codes'])
    await test.sql('DELETE FROM password_tries')
    expect((await second(clients[1], other.app.code())).status).toBe(200)
  })

  it('is asked for by every way in: a link does not get around it', async () => {
    const { name, app } = await somebody()
    const admin = await test.signedIn({ name: `admin of ${name}`, roles: ['administrator'] })
    const [{ id } = { id: '' }] = await test.sql<{ id: string }>('SELECT id FROM account WHERE name = $1', [name])
    const { token } = await admin.post<{ token: string }>(`/api/accounts/${id}/link`)
    const client = stranger()
    const welcome = await client.tries('POST', '/api/welcome', { token, password: 'the drums beat at noon' })
    expect(welcome.status).toBe(202)
    await client.refused(401, 'GET', '/api/session')
    expect((await second(client, app.code())).status).toBe(200)
  })

  it('is not told of before the password is right', async () => {
    const { name } = await somebody()
    const wrong = await signIn(stranger(), name, 'not the password at all')
    expect([wrong.status, ruleOf(wrong)]).toEqual([401, 'wrong-name-or-password'])
    expect(cookiesOf(wrong)).toEqual([])
  })
})

describe('recovery codes', () => {
  it('are ten, each good once, and kept as hashes', async () => {
    const { name, client, app } = await somebody()
    expect(app.recoveryCodes).toHaveLength(10)
    const [code] = app.recoveryCodes
    expect((await second(await halfway(name), code!.toLowerCase())).status).toBe(200)
    expect((await second(await halfway(name), code!)).status).toBe(422)
    expect((await factorsOf(client)).recoveryCodes).toBe(9)
    const rows = await test.sql<{ row: string }>('SELECT r::text AS row FROM recovery_code r')
    for (const { row } of rows) for (const each of app.recoveryCodes) expect(row).not.toContain(each.slice(5))
  })

  it('are replaced all together', async () => {
    const { name, client, app } = await somebody()
    const { codes } = await client.post<{ codes: string[] }>('/api/account/factors/recovery-codes')
    expect((await second(await halfway(name), app.recoveryCodes[4]!)).status).toBe(422)
    expect((await second(await halfway(name), codes[4]!)).status).toBe(200)
  })
})

describe('one’s own second factors', () => {
  it('keep no secret that can be read, in the database or the record', async () => {
    const client = await test.signedIn({ name: 'keeper' })
    const { key, address } = await client.post<NewApp>('/api/account/factors/app')
    expect(new URL(address).searchParams.get('secret')).toBe(key)
    await client.put('/api/account/factors/app', { code: codeOf(key, test.clock.now) }, 200)
    const rows = await test.sql<{ row: string }>(
      'SELECT a::text AS row FROM authenticator_app a UNION ALL SELECT e::text FROM record_entry e',
    )
    const bytes = Buffer.from(key).toString('hex')
    for (const { row } of rows) expect(row).not.toMatch(new RegExp(`${key}|${bytes}`, 'i'))
    expect(await factorsOf(client)).toMatchObject({ app: { lastUsedAt: null }, passkeys: [], recoveryCodes: 10 })
  })

  it('do not count before their first code, and a second app takes the place of the first with its own', async () => {
    const { name, client, app } = await somebody()
    const { key } = await client.post<NewApp>('/api/account/factors/app')
    expect((await second(await halfway(name), codeOf(key, test.clock.now))).status).toBe(422)
    expect((await second(await halfway(name), app.code())).status).toBe(200)
    for (const code of ['000000', '', '٠٠٠٠٠٠', '12345678']) {
      const problem = await client.refused(422, 'PUT', '/api/account/factors/app', { code })
      expect(problem.errors).toMatchObject([{ pointer: '/code', rule: 'wrong-code' }])
    }
    const { codes } = await client.put<{ codes: unknown }>(
      '/api/account/factors/app',
      { code: codeOf(key, test.clock.now) },
      200,
    )
    expect(codes).toBeNull()
    later(STEP_MS)
    expect((await second(await halfway(name), app.code())).status).toBe(422)
    expect((await second(await halfway(name), codeOf(key, test.clock.now))).status).toBe(200)
    await client.refused(409, 'PUT', '/api/account/factors/app', { code: '000000' })
  })

  it('make other sessions show who they are again', async () => {
    const client = await test.signedIn({ name: 'two places' })
    const elsewhere = stranger()
    await signIn(elsewhere, 'two places')
    await elsewhere.post('/api/account/factors/app')
    const app = await setUpApp(test, client)
    const problem = await elsewhere.refused(403, 'POST', '/api/account/factors/app')
    expect(problem.type).toMatch(/confirm-identity$/)
    later(STEP_MS)
    await elsewhere.refused(422, 'POST', '/api/account/confirmation', { password: PASSWORD })
    expect((await elsewhere.tries('POST', '/api/account/confirmation', { code: app.code() })).status).toBe(200)
  })

  it('can be taken away, with the recovery codes, and then the password is enough', async () => {
    const { name, client, app } = await somebody()
    expect((await client.tries('DELETE', '/api/account/factors/app')).status).toBe(204)
    expect(await factorsOf(client)).toMatchObject({ app: null, recoveryCodes: 0 })
    await client.refused(409, 'DELETE', '/api/account/factors/app')
    await client.refused(409, 'POST', '/api/account/factors/recovery-codes')
    const again = stranger()
    expect((await signIn(again, name)).status).toBe(200)
    await again.refused(422, 'POST', '/api/account/confirmation', { code: app.code() })
  })

  it('cannot be opened under another key: recovery codes still can', async () => {
    const { name, app } = await somebody()
    await test.sql(
      `UPDATE authenticator_app SET sealed_secret = set_byte(sealed_secret, 3, (get_byte(sealed_secret, 3) + 1) % 256)
       WHERE account_id = (SELECT id FROM account WHERE name = $1)`,
      [name],
    )
    const client = await halfway(name)
    const lost = await second(client, app.code())
    expect([lost.status, ruleOf(lost)]).toEqual([409, 'app-key-lost'])
    expect((await second(client, app.recoveryCodes[9]!)).status).toBe(200)
  })
})
