import { randomBytes } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { buildApp } from '../../../server/app.ts'
import type { OwnSession } from '../../../server/contract/accounts/accounts.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { type Client, createClient } from '../../support/client.ts'
import { cookieOf, cookiesOf } from '../../support/cookies-of.ts'

const SESSION = 'reviewstand_session'
const DEVICE = 'reviewstand_device'
const HOUR_MS = 3_600_000
const NEXT = 'the drums beat at noon'

let test: TestApp
let made = 0
beforeAll(async () => {
  test = await buildTestApp()
})
afterAll(() => test.close())
beforeEach(() => {
  test.clock.now = new Date('2026-06-15T12:00:00Z')
})

/** A new account and its name, signed in once. */
async function somebody(): Promise<{ name: string; client: Client }> {
  made += 1
  const name = `sergeant-${made}`
  return { name, client: await test.signedIn({ name }) }
}
const stranger = () => createClient(test.app.server)
const signIn = (client: Client, name: string, password = PASSWORD, headers = {}) =>
  client.tries('POST', '/api/session', { name, password }, headers)
const whoIs = async (cookie: string) => (await stranger().tries('GET', '/api/session', undefined, { cookie })).status
const later = (milliseconds: number) => {
  test.clock.now = new Date(test.clock.now.getTime() + milliseconds)
}

describe('signing in', () => {
  it('sets a session cookie that scripts and other sites do not get, and no token in the body', async () => {
    const { name } = await somebody()
    const answer = await signIn(stranger(), name)
    const session = cookiesOf(answer).find((cookie) => cookie.name === SESSION)!
    expect(session.attributes).toEqual({ path: '/', httponly: '', samesite: 'Strict', 'max-age': '604800' })
    expect(session.value).toMatch(/^[\w-]{43}$/)
    expect(JSON.stringify(answer.body)).not.toContain(session.value)
    expect(answer.body).toMatchObject({ name, roles: ['office'] })
    expect(await whoIs(`${SESSION}=${session.value}`)).toBe(200)
  })

  it('takes the name in any case, and the password however its letters are composed', async () => {
    const { client } = await somebody()
    await client.tries('PUT', '/api/account/password', { current: PASSWORD, next: 'Grüße aus der Wachstube' })
    const name = `SERGEANT-${made}`
    expect((await signIn(stranger(), name, 'Gru\u0308ße aus der Wachstube')).status).toBe(200)
    expect((await signIn(stranger(), name, 'grüße aus der wachstube')).status).toBe(401)
  })

  it('keeps the token as a hash only', async () => {
    const { name } = await somebody()
    const token = cookieOf(await signIn(stranger(), name), SESSION)!
    const rows = await test.sql('SELECT * FROM session UNION ALL SELECT * FROM session')
    expect(rows.length).toBeGreaterThan(0)
    const stored = await test.sql<{ row: string }>(
      `SELECT s::text AS row FROM session s UNION ALL SELECT d::text FROM known_device d UNION ALL SELECT e::text FROM record_entry e`,
    )
    const forms = [token, Buffer.from(token).toString('hex'), Buffer.from(token, 'base64url').toString('hex')]
    for (const { row } of stored) for (const form of forms) expect(row).not.toContain(form)
  })

  it('tells a wrong name, a wrong password, an invited and a disabled account apart by nothing', async () => {
    const { name } = await somebody()
    await test.signedIn({ name: 'gone' })
    await test.sql("UPDATE account SET disabled_at = now() WHERE name = 'gone'")
    await test.sql("INSERT INTO account (name, roles, created_at) VALUES ('invited', '{office}', now())")
    const answers = await Promise.all([
      signIn(stranger(), name, 'not the password at all'),
      signIn(stranger(), 'nobody-by-this-name'),
      signIn(stranger(), 'gone'),
      signIn(stranger(), 'invited'),
    ])
    const told = answers.map(({ status, body, headers }) => {
      const { date: _, ...rest } = headers
      return { status, body, headers: rest }
    })
    expect(told[0]).toMatchObject({ status: 401, body: { type: 'urn:reviewstand:problem:wrong-name-or-password' } })
    for (const one of told) expect(one).toEqual(told[0])
  })
})

describe('the cookie of a session', () => {
  it('is a new one at every sign-in, whatever came with the request: nobody can plant one', async () => {
    const { name } = await somebody()
    const planted = randomBytes(32).toString('base64url')
    const answer = await signIn(stranger(), name, PASSWORD, { cookie: `${SESSION}=${planted}` })
    expect(cookieOf(answer, SESSION)).not.toBe(planted)
    expect(await whoIs(`${SESSION}=${planted}`)).toBe(401)
  })

  it('ends the session it came with, also that of another account', async () => {
    const attacker = await somebody()
    const theirs = cookieOf(await signIn(stranger(), attacker.name), SESSION)!
    const victim = await somebody()
    await signIn(stranger(), victim.name, PASSWORD, { cookie: `${SESSION}=${theirs}` })
    expect(await whoIs(`${SESSION}=${theirs}`)).toBe(401)
  })

  it('is no use after signing out', async () => {
    const { name } = await somebody()
    const client = stranger()
    const token = cookieOf(await signIn(client, name), SESSION)!
    expect((await client.tries('DELETE', '/api/session')).status).toBe(204)
    expect(await whoIs(`${SESSION}=${token}`)).toBe(401)
    expect(
      (await stranger().tries('DELETE', '/api/session', undefined, { cookie: `${SESSION}=${token}` })).status,
    ).toBe(204)
  })

  it('cannot be forged', async () => {
    const { name } = await somebody()
    const token = cookieOf(await signIn(stranger(), name), SESSION)!
    const [{ hash, id }] = (await test.sql<{ hash: string; id: string }>(
      `SELECT encode(token_hash, 'hex') AS hash, id FROM session ORDER BY seen_at DESC LIMIT 1`,
    )) as [{ hash: string; id: string }]
    const forged = [
      '',
      '0',
      'null',
      token.slice(0, -1),
      `${token}A`,
      `${token.slice(0, -2)}AA`,
      token.toUpperCase(),
      hash,
      Buffer.from(hash, 'hex').toString('base64url'),
      id,
      `${token}.signature`,
      encodeURIComponent(`' OR '1'='1`),
      'A'.repeat(4000),
      randomBytes(32).toString('base64url'),
    ]
    for (const value of forged) expect([value, await whoIs(`${SESSION}=${value}`)]).toEqual([value, 401])
    expect(await whoIs(`__Host-${SESSION}=${token}`)).toBe(401)
    expect(await whoIs(`${SESSION}=${token}`)).toBe(200)
  })

  it('lasts twelve hours without use and seven days in all', async () => {
    const { name } = await somebody()
    const idle = cookieOf(await signIn(stranger(), name), SESSION)!
    const used = cookieOf(await signIn(stranger(), name), SESSION)!
    later(12 * HOUR_MS)
    expect(await whoIs(`${SESSION}=${used}`)).toBe(200)
    later(1)
    expect(await whoIs(`${SESSION}=${idle}`)).toBe(401)
    for (let half = 1; half < 14; half += 1) {
      later(12 * HOUR_MS - 1)
      expect(await whoIs(`${SESSION}=${used}`)).toBe(200)
    }
    later(60_000)
    expect(await whoIs(`${SESSION}=${used}`)).toBe(401)
  })
})

describe('wrong passwords', () => {
  const wrong = 'not the password at all'
  const fail = async (name: string, times: number, client = stranger()) => {
    const statuses: number[] = []
    for (let time = 0; time < times; time += 1) statuses.push((await signIn(client, name, wrong)).status)
    return statuses
  }

  it('make an account wait, longer each time, and say how long', async () => {
    const { name } = await somebody()
    expect(await fail(name, 11)).toEqual(Array(11).fill(401))
    const waits: number[] = []
    for (let time = 0; time < 10; time += 1) {
      const answer = await signIn(stranger(), name, wrong)
      expect(answer.status).toBe(429)
      expect(answer.body).toMatchObject({ type: 'urn:reviewstand:problem:too-many-wrong-passwords' })
      waits.push(Number(answer.headers['retry-after']))
      later(waits.at(-1)! * 1000)
      expect((await signIn(stranger(), name, wrong)).status).toBe(401)
    }
    expect(waits).toEqual([1, 2, 4, 8, 16, 32, 64, 128, 256, 300])
  })

  it('lock nobody out: after the wait the right one opens, and all is forgotten', async () => {
    const { name } = await somebody()
    await fail(name, 12)
    const refused = await signIn(stranger(), name)
    expect(refused.status).toBe(429)
    later(Number(refused.headers['retry-after']) * 1000)
    expect((await signIn(stranger(), name)).status).toBe(200)
    expect(await fail(name, 11)).toEqual(Array(11).fill(401))
  })

  it('from elsewhere do not make a known device wait, nor end its session', async () => {
    const { name, client } = await somebody()
    await fail(name, 12)
    expect((await signIn(stranger(), name)).status).toBe(429)
    expect((await signIn(client, name)).status).toBe(200)
    expect((await client.tries('GET', '/api/session')).status).toBe(200)
  })

  it('from a known device make that device wait', async () => {
    const { name, client } = await somebody()
    await fail(name, 11, client)
    expect((await signIn(client, name)).status).toBe(429)
    expect((await signIn(stranger(), name)).status).toBe(200)
  })

  it('are not waived by the cookie of another account’s device', async () => {
    const { client } = await somebody()
    const { name } = await somebody()
    await fail(name, 12)
    expect((await signIn(client, name)).status).toBe(429)
  })

  it('count for a name that nobody has as for any other', async () => {
    expect((await fail('nobody-at-all', 13)).slice(10)).toEqual([401, 429, 429])
    expect((await signIn(stranger(), 'NOBODY-at-all')).status).toBe(429)
  })

  it('gain nothing by coming all at once', async () => {
    const { name } = await somebody()
    const answers = await Promise.all(Array.from({ length: 40 }, () => signIn(stranger(), name, wrong)))
    expect(answers.filter(({ status }) => status === 401)).toHaveLength(11)
    expect(answers.filter(({ status }) => status === 429)).toHaveLength(29)
  })

  it('are counted for all server processes together', async () => {
    const { name } = await somebody()
    const logger = false
    const other = await buildApp({
      config: { demo: false, timeZone: 'UTC' },
      db: test.db,
      clock: () => test.clock.now,
      logger,
    })
    await other.ready()
    await fail(name, 11)
    expect((await signIn(createClient(other.server), name)).status).toBe(429)
    await other.close()
  })

  it('leave neither name nor address in the database', async () => {
    await fail('private-name', 1)
    const rows = await test.sql<{ row: string }>('SELECT t::text AS row FROM password_tries t')
    expect(rows.length).toBeGreaterThan(0)
    for (const { row } of rows) expect(row).not.toMatch(/private|127\.0/)
    const [noted] = await test.sql<{ entry: string }>(
      `SELECT e::text AS entry FROM record_entry e WHERE action = 'session.refused' ORDER BY seq DESC LIMIT 1`,
    )
    expect(noted!.entry).not.toContain('private-name')
  })

  it('of many names from one address make that address wait, but no device that is known', async () => {
    const first = await somebody()
    const second = await somebody()
    const network = "sha256('network 127.0.0.1')"
    await fail('somebody-to-guess', 1)
    await test.sql(`UPDATE password_tries SET level = 99, wait_until = NULL WHERE key = ${network}`)
    expect(await fail('one-name', 1)).toEqual([401])
    expect(await fail('another-name', 1)).toEqual([401])
    expect((await signIn(stranger(), first.name)).status).toBe(429)
    expect((await signIn(second.client, second.name)).status).toBe(200)
    later(1000)
    expect((await signIn(stranger(), first.name)).status).toBe(200)
    await test.sql(`DELETE FROM password_tries WHERE key = ${network}`)
  })

  it('cost right ones nothing: somebody may sign in as often as they like', async () => {
    const { name } = await somebody()
    for (let time = 0; time < 30; time += 1) expect((await signIn(stranger(), name)).status).toBe(200)
  })
})

describe('one’s own sessions', () => {
  const sessionsOf = async (client: Client) =>
    (await client.get<{ items: OwnSession[] }>('/api/account/sessions')).items

  it('are listed: since when, whence coarsely, with what, and which is this one', async () => {
    const { name, client } = await somebody()
    later(90_000)
    const agent = 'Mozilla/5.0 (Windows NT 10.0; Win64; x64; rv:128.0) Gecko/20100101 Firefox/128.0'
    await signIn(stranger(), name, PASSWORD, { 'user-agent': agent })
    const items = await sessionsOf(client)
    expect(items.map(({ id: _, ...rest }) => rest)).toEqual([
      {
        createdAt: '2026-06-15T12:00:00.000Z',
        seenAt: '2026-06-15T12:01:30.000Z',
        network: 'the server itself',
        device: 'A program',
        isThisOne: true,
      },
      {
        createdAt: '2026-06-15T12:01:30.000Z',
        seenAt: '2026-06-15T12:01:30.000Z',
        network: 'the server itself',
        device: 'Firefox on Windows',
        isThisOne: false,
      },
    ])
  })

  it('can be ended one by one; those of others are not found', async () => {
    const mine = await somebody()
    const phone = stranger()
    await signIn(phone, mine.name)
    const others = await somebody()
    const [theirs] = await sessionsOf(others.client)
    await mine.client.refused(404, 'DELETE', `/api/account/sessions/${theirs!.id}`)
    expect((await others.client.tries('GET', '/api/session')).status).toBe(200)

    const other = (await sessionsOf(mine.client)).find(({ isThisOne }) => !isThisOne)!
    expect((await mine.client.tries('DELETE', `/api/account/sessions/${other.id}`)).status).toBe(204)
    expect((await phone.tries('GET', '/api/session')).status).toBe(401)
    expect((await mine.client.tries('GET', '/api/session')).status).toBe(200)
    await mine.client.refused(404, 'DELETE', `/api/account/sessions/${other.id}`)
  })

  it('can be ended all at once, this one too', async () => {
    const { name, client } = await somebody()
    const phone = stranger()
    const token = cookieOf(await signIn(phone, name), SESSION)!
    expect((await client.tries('DELETE', '/api/account/sessions')).status).toBe(204)
    expect(await whoIs(`${SESSION}=${token}`)).toBe(401)
    expect((await client.tries('GET', '/api/session')).status).toBe(401)
  })

  it('are twenty at the most: the one unused for longest gives way', async () => {
    const { name, client } = await somebody()
    const first = cookieOf(await signIn(stranger(), name), SESSION)!
    for (let time = 0; time < 19; time += 1) {
      later(1000)
      await signIn(stranger(), name)
    }
    expect(await whoIs(`${SESSION}=${first}`)).toBe(200)
    later(61_000)
    expect(await whoIs(`${SESSION}=${first}`)).toBe(200)
    later(1000)
    await signIn(stranger(), name)
    expect(await whoIs(`${SESSION}=${first}`)).toBe(200)
    expect((await client.tries('GET', '/api/session')).status).toBe(401)
  })
})

describe('a password change', () => {
  it('needs the present password', async () => {
    const { name, client } = await somebody()
    const problem = await client.refused(422, 'PUT', '/api/account/password', {
      current: 'not the password at all',
      next: NEXT,
    })
    expect(problem).toMatchObject({ type: 'urn:reviewstand:problem:wrong-password', errors: [{ pointer: '/current' }] })
    expect((await signIn(stranger(), name)).status).toBe(200)
  })

  it('ends all other sessions and gives this one a new token', async () => {
    const { name, client } = await somebody()
    const phone = stranger()
    await signIn(phone, name)
    const before = cookieOf(await signIn(client, name), SESSION)!
    const answer = await client.tries('PUT', '/api/account/password', { current: PASSWORD, next: NEXT })
    expect(answer).toMatchObject({ status: 200, body: { ended: 1 } })
    expect(cookieOf(answer, SESSION)).not.toBe(before)
    expect(await whoIs(`${SESSION}=${before}`)).toBe(401)
    expect((await phone.tries('GET', '/api/session')).status).toBe(401)
    expect((await client.tries('GET', '/api/session')).status).toBe(200)
    expect((await signIn(stranger(), name)).status).toBe(401)
    expect((await signIn(stranger(), name, NEXT)).status).toBe(200)
  })

  it('makes all other devices strangers', async () => {
    const { name, client } = await somebody()
    const phone = stranger()
    const device = cookieOf(await signIn(phone, name), DEVICE)!
    await client.tries('PUT', '/api/account/password', { current: PASSWORD, next: NEXT })
    for (let time = 0; time < 11; time += 1) await signIn(stranger(), name)
    expect((await signIn(stranger(), name, NEXT, { cookie: `${DEVICE}=${device}` })).status).toBe(429)
    expect((await signIn(client, name, NEXT)).status).toBe(200)
  })

  it('makes who guesses the present password wait, in that session alone', async () => {
    const { name, client } = await somebody()
    const guess = (by: Client) => by.tries('PUT', '/api/account/password', { current: 'a wrong guess', next: NEXT })
    for (let time = 0; time < 11; time += 1) expect((await guess(client)).status).toBe(422)
    expect((await guess(client)).status).toBe(429)
    const phone = stranger()
    expect((await signIn(phone, name)).status).toBe(200)
    expect((await guess(phone)).status).toBe(422)
  })

  it.each([
    ['fourteen characters', 'fourteen chars', '/next'],
    ['more than 1024', 'x y z'.repeat(300), '/next'],
    ['one that everybody tries', 'passwordpassword', '/next'],
    ['its own name', 'sergeant-sergeant', '/next'],
    ['the password it has', PASSWORD, '/next'],
  ])('refuses %s, and says where', async (_what, next, pointer) => {
    const { client } = await somebody()
    const problem = await client.refused(422, 'PUT', '/api/account/password', { current: PASSWORD, next })
    expect(problem.errors).toMatchObject([{ pointer }])
    expect(JSON.stringify(problem)).not.toContain(next)
  })

  it('of two at the same moment lets one through', async () => {
    const { name, client } = await somebody()
    const phone = stranger()
    await signIn(phone, name)
    const answers = await Promise.all(
      [client, phone].map((by, at) =>
        by.tries('PUT', '/api/account/password', { current: PASSWORD, next: `${NEXT}, part ${at}` }),
      ),
    )
    expect(answers.map(({ status }) => status).filter((status) => status === 200)).toHaveLength(1)
    const passed = answers.findIndex(({ status }) => status === 200)
    expect((await signIn(stranger(), name, `${NEXT}, part ${passed}`)).status).toBe(200)
    expect((await signIn(stranger(), name, `${NEXT}, part ${1 - passed}`)).status).toBe(401)
  })
})
