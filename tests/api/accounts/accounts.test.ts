import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Account, InvitationLink } from '../../../server/contract/accounts/accounts.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { type Client, createClient } from '../../support/client.ts'
import { cookieOf } from '../../support/cookies-of.ts'
import { makeSoldier, makeUnit } from '../../support/factories.ts'

const CHOSEN = 'the drums beat at noon'
const HOUR_MS = 3_600_000
let test: TestApp
let admin: Client
let unitId: string
let made = 0

beforeAll(async () => {
  test = await buildTestApp()
  unitId = await makeUnit(test.office)
})
afterAll(() => test.close())
beforeEach(async () => {
  test.clock.now = new Date('2026-06-15T12:00:00Z')
  await test.sql("DELETE FROM account WHERE name = 'admin' OR 'administrator' = ANY(roles)")
  admin = await test.signedIn({ name: 'admin', roles: ['administrator'] })
})

const stranger = () => createClient(test.app.server)
const invitation = (changes = {}) => {
  made += 1
  return { name: `invited-${made}`, roles: ['office'], soldierId: null, unitId: null, ...changes }
}
const invite = (changes = {}) => admin.post<InvitationLink>('/api/accounts', invitation(changes))
const accept = (token: string, password = CHOSEN, client = stranger()) =>
  client.tries('POST', '/api/welcome', { token, password })
const signIn = (name: string, password: string) => stranger().tries('POST', '/api/session', { name, password })
const accountNamed = async (name: string) =>
  (await admin.get<{ items: Account[] }>(`/api/accounts?q=${encodeURIComponent(name)}`)).items.find(
    (account) => account.name === name,
  )
const later = (milliseconds: number) => {
  test.clock.now = new Date(test.clock.now.getTime() + milliseconds)
}

describe('an invitation', () => {
  it('makes an account by a link with which the invited chooses the password and is signed in', async () => {
    const body = invitation()
    const link = await admin.post<InvitationLink>('/api/accounts', body)
    expect(link.expiresAt).toBe('2026-06-18T12:00:00.000Z')
    expect(await accountNamed(body.name)).toMatchObject({ state: 'invited', linkExpiresAt: link.expiresAt })

    const invited = stranger()
    expect((await invited.tries('POST', '/api/welcome/look', { token: link.token })).body).toEqual({
      name: body.name,
      expiresAt: link.expiresAt,
    })
    expect(await accept(link.token, CHOSEN, invited)).toMatchObject({ status: 200, body: { name: body.name } })
    expect(await invited.get('/api/session')).toMatchObject({ name: body.name, roles: ['office'] })
    expect((await signIn(body.name, CHOSEN)).status).toBe(200)
    expect(await accountNamed(body.name)).toMatchObject({ state: 'active', linkExpiresAt: null })
  })

  it('works once', async () => {
    const { token } = await invite()
    const answers = await Promise.all(Array.from({ length: 5 }, (_, at) => accept(token, `${CHOSEN}, part ${at}`)))
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1)
    await stranger().refused(404, 'POST', '/api/welcome', { token, password: CHOSEN })
    await stranger().refused(404, 'POST', '/api/welcome/look', { token })
  })

  it('ends after 72 hours', async () => {
    const { token } = await invite()
    later(72 * HOUR_MS - 1)
    expect((await stranger().tries('POST', '/api/welcome/look', { token })).status).toBe(200)
    later(1)
    expect((await accept(token)).status).toBe(404)
  })

  it('is kept as a hash, and its token is told once and stands in no record', async () => {
    const { token, id } = await invite()
    const [row] = await test.sql<{ hashed: boolean }>(
      "SELECT token_hash = sha256(convert_to($1, 'UTF8')) AS hashed FROM invitation WHERE account_id = $2",
      [token, id],
    )
    expect(row).toEqual({ hashed: true })
    const listed = JSON.stringify(await admin.get('/api/accounts'))
    const [record] = await test.sql<{ all: string }>("SELECT string_agg(e::text, '') AS all FROM record_entry e")
    for (const text of [listed, record!.all]) expect(text).not.toContain(token)
  })

  it('cannot be guessed from another, or used as anything else', async () => {
    const { token } = await invite()
    for (const forged of ['', token.slice(1), `${token}A`, token.toLowerCase(), '%00', "' OR true --"]) {
      expect((await accept(forged)).status).toBe(404)
    }
    expect(
      (await stranger().tries('GET', '/api/session', undefined, { cookie: `reviewstand_session=${token}` })).status,
    ).toBe(401)
    await stranger().refused(401, 'POST', '/api/setup', { token, name: 'intruder', password: CHOSEN })
  })

  it('leaves the link good when the password is refused', async () => {
    const { token } = await invite({ name: 'ashdown.mirela' })
    const problem = await stranger().refused(422, 'POST', '/api/welcome', { token, password: 'ashdown.mirela.1' })
    expect(problem).toMatchObject({
      type: 'urn:reviewstand:problem:guessable-password',
      errors: [{ pointer: '/password' }],
    })
    await stranger().refused(422, 'POST', '/api/welcome', { token, password: 'too short' })
    expect((await accept(token)).status).toBe(200)
  })

  it('replaces whoever is signed in in that browser', async () => {
    const { token } = await invite()
    const browser = await test.signedIn({ name: `earlier-${made}` })
    const before = cookieOf(
      await browser.tries('POST', '/api/session', { name: `earlier-${made}`, password: PASSWORD }),
      'reviewstand_session',
    )
    expect((await accept(token, CHOSEN, browser)).status).toBe(200)
    expect(await browser.get('/api/session')).toMatchObject({ name: `invited-${made}` })
    const cookie = `reviewstand_session=${before}`
    expect((await stranger().tries('GET', '/api/session', undefined, { cookie })).status).toBe(401)
  })

  it.each([
    ['no name', { name: ' ' }, '/name'],
    ['a name with what cannot be seen', { name: 'ad\u200bmin' }, '/name'],
    ['no role', { roles: [] }, '/roles'],
    ['a role twice', { roles: ['office', 'office'] }, '/roles'],
    ['a role that is none', { roles: ['root'] }, '/roles/0'],
    ['a leader of nothing', { roles: ['leader'] }, '/unitId'],
    ['a commander of nothing', { roles: ['office', 'commander'] }, '/unitId'],
    ['a grader who is nobody', { roles: ['grader'] }, '/soldierId'],
    ['a unit that is not there', { unitId: randomUUID() }, '/unitId'],
    ['a soldier who is not there', { soldierId: randomUUID() }, '/soldierId'],
    ['a password chosen for somebody else', { password: CHOSEN }, '/password'],
  ])('refuses %s, and says where', async (_what, changes, pointer) => {
    const problem = await admin.refused(422, 'POST', '/api/accounts', invitation(changes))
    expect(problem.errors?.[0]?.pointer).toBe(pointer)
  })

  it('refuses a name or a soldier that another account has, whatever the case', async () => {
    const soldierId = await makeSoldier(test.office, unitId)
    const body = invitation({ roles: ['soldier'], soldierId })
    await admin.post('/api/accounts', body)
    const taken = await admin.refused(409, 'POST', '/api/accounts', { ...body, name: body.name.toUpperCase() })
    expect(taken.type).toBe('urn:reviewstand:problem:name-taken')
    const twice = await admin.refused(409, 'POST', '/api/accounts', invitation({ roles: ['soldier'], soldierId }))
    expect(twice.type).toBe('urn:reviewstand:problem:soldier-has-account')
  })

  it('is refused for a name that looks like another, in whatever letters', async () => {
    await admin.post('/api/accounts', invitation({ name: 'paula-cole' }))
    // Cyrillic letters, and a full-width one.
    for (const name of ['p\u0430ula-cole', 'paula-c\u043ele', '\uff50aula-cole']) {
      const { type } = await admin.refused(409, 'POST', '/api/accounts', invitation({ name }))
      expect(type, name).toMatch(/^urn:reviewstand:problem:name-(too-alike|taken)$/)
    }
    await admin.post('/api/accounts', invitation({ name: 'paula-colt' }))
  })

  it('of two for one name at the same moment makes one', async () => {
    const body = invitation()
    const answers = await Promise.all([1, 2, 3].map(() => admin.tries('POST', '/api/accounts', body)))
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409])
  })
})

describe('a link sent anew', () => {
  it('takes the password away, ends the sessions, and ends the link before', async () => {
    const first = await invite()
    const browser = stranger()
    await accept(first.token, CHOSEN, browser)
    const second = await admin.post<InvitationLink>(`/api/accounts/${first.id}/link`)
    expect((await browser.tries('GET', '/api/session')).status).toBe(401)
    expect((await signIn(`invited-${made}`, CHOSEN)).status).toBe(401)
    const third = await admin.post<InvitationLink>(`/api/accounts/${first.id}/link`)
    expect((await accept(second.token)).status).toBe(404)
    expect((await accept(third.token, `${CHOSEN}, again`)).status).toBe(200)
    expect((await signIn(`invited-${made}`, CHOSEN)).status).toBe(401)
  })

  it('lets somebody in whom wrong passwords make wait', async () => {
    const { token, id } = await invite()
    await accept(token)
    const name = `invited-${made}`
    for (let time = 0; time < 11; time += 1) await signIn(name, 'not the password at all')
    expect((await signIn(name, CHOSEN)).status).toBe(429)
    const link = await admin.post<InvitationLink>(`/api/accounts/${id}/link`)
    const browser = stranger()
    expect((await accept(link.token, CHOSEN, browser)).status).toBe(200)
    expect((await browser.tries('GET', '/api/session')).status).toBe(200)
  })

  it('is not for one’s own account, a disabled one, or none', async () => {
    const own = await accountNamed('admin')
    await admin.refused(409, 'POST', `/api/accounts/${own!.id}/link`)
    const { id } = await invite()
    await admin.put(`/api/accounts/${id}/disabled`, { disabled: true }, 200)
    await admin.refused(409, 'POST', `/api/accounts/${id}/link`)
    await admin.refused(404, 'POST', `/api/accounts/${randomUUID()}/link`)
  })
})

describe('a disabled account', () => {
  it('is out at once: sessions, password and link; enabled it has its password back', async () => {
    const { token, id } = await invite()
    const browser = stranger()
    await accept(token, CHOSEN, browser)
    await admin.put(`/api/accounts/${id}/disabled`, { disabled: true }, 200)
    expect(await accountNamed(`invited-${made}`)).toMatchObject({ state: 'disabled' })
    expect((await browser.tries('GET', '/api/session')).status).toBe(401)
    expect((await signIn(`invited-${made}`, CHOSEN)).status).toBe(401)
    await admin.put(`/api/accounts/${id}/disabled`, { disabled: false }, 200)
    expect((await browser.tries('GET', '/api/session')).status).toBe(401)
    expect((await signIn(`invited-${made}`, CHOSEN)).status).toBe(200)
  })

  it('loses the link it was sent', async () => {
    const { token, id } = await invite()
    await admin.put(`/api/accounts/${id}/disabled`, { disabled: true }, 200)
    expect((await accept(token)).status).toBe(404)
    await admin.put(`/api/accounts/${id}/disabled`, { disabled: false }, 200)
    expect((await accept(token)).status).toBe(404)
  })
})

describe('roles, soldier and unit', () => {
  it('hold from the next request on', async () => {
    const { token, id } = await invite()
    const browser = stranger()
    await accept(token, CHOSEN, browser)
    expect((await browser.tries('GET', '/api/accounts')).status).toBe(404)
    const soldierId = await makeSoldier(test.office, unitId)
    const body = { roles: ['administrator', 'leader', 'soldier'], soldierId, unitId }
    await admin.put(`/api/accounts/${id}`, body, 200)
    expect(await browser.get('/api/session')).toMatchObject(body)
    expect((await browser.tries('GET', '/api/accounts')).status).toBe(200)
    expect(await accountNamed(`invited-${made}`)).toMatchObject({
      ...body,
      soldier: expect.stringContaining('Ashford'),
    })
  })

  it('are refused with what is wrong', async () => {
    const { id } = await invite()
    await admin.refused(422, 'PUT', `/api/accounts/${id}`, { roles: ['leader'], soldierId: null, unitId: null })
    await admin.refused(404, 'PUT', `/api/accounts/${randomUUID()}`, {
      roles: ['office'],
      soldierId: null,
      unitId: null,
    })
    await admin.refused(400, 'PUT', '/api/accounts/1', { roles: ['office'], soldierId: null, unitId: null })
  })
})

describe('the last administrator', () => {
  const without = { roles: ['office'], soldierId: null, unitId: null }
  const ownId = async () => (await accountNamed('admin'))!.id

  it('can neither give the role away nor be disabled', async () => {
    const id = await ownId()
    for (const [path, body] of [
      [`/api/accounts/${id}`, without],
      [`/api/accounts/${id}/disabled`, { disabled: true }],
    ] as const) {
      const { type } = await admin.refused(409, 'PUT', path, body)
      expect(type).toBe('urn:reviewstand:problem:last-administrator')
    }
    expect(await admin.get('/api/session')).toMatchObject({ roles: ['administrator'] })
  })

  it('is one also beside another who is disabled, or has not chosen a password', async () => {
    const { token, id } = await invite({ roles: ['administrator'] })
    await admin.refused(409, 'PUT', `/api/accounts/${await ownId()}`, without)
    await accept(token)
    await admin.put(`/api/accounts/${id}/disabled`, { disabled: true }, 200)
    await admin.refused(409, 'PUT', `/api/accounts/${await ownId()}`, without)
    await admin.put(`/api/accounts/${id}/disabled`, { disabled: false }, 200)
    await admin.put(`/api/accounts/${await ownId()}`, without, 200)
  })

  it('stays when two take the role from each other at the same moment', async () => {
    const { token, id } = await invite({ roles: ['administrator'] })
    const other = stranger()
    await accept(token, CHOSEN, other)
    const own = await ownId()
    const waiting = "SELECT FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'"
    // Both are held up before they end, so that neither sees what the other has done.
    const both = await test.db.$transaction(async (tx) => {
      await tx.$executeRaw`SELECT FROM record_head FOR UPDATE`
      const asked = [
        admin.tries('PUT', `/api/accounts/${id}`, without),
        other.tries('PUT', `/api/accounts/${own}`, without),
      ]
      while ((await test.sql(waiting)).length < 2) await new Promise((resolve) => setTimeout(resolve, 10))
      return { asked }
    })
    const answers = await Promise.all(both.asked)
    const statuses = answers.map(({ status }) => status).sort()
    expect(statuses[0]).toBe(200)
    expect([404, 409]).toContain(statuses[1])
    const [left] = await test.sql("SELECT count(*)::int AS n FROM account WHERE 'administrator' = ANY(roles)")
    expect(left).toEqual({ n: 1 })
  })
})

describe('everybody but administrators', () => {
  it.each(['office', 'leader', 'commander', 'sponsor', 'grader', 'soldier'])(
    'finds nothing there: %s',
    async (role) => {
      made += 1
      const soldierId = await makeSoldier(test.office, unitId)
      const client = await test.signedIn({ name: `${role}-${made}`, roles: [role], soldierId, unitId })
      const { id } = await invite()
      const reach = { roles: ['administrator'], soldierId: null, unitId: null }
      const asked = [
        ['GET', '/api/accounts', undefined],
        ['POST', '/api/accounts', invitation()],
        ['PUT', `/api/accounts/${id}`, reach],
        ['PUT', `/api/accounts/${id}/disabled`, { disabled: true }],
        ['POST', `/api/accounts/${id}/link`, undefined],
      ] as const
      for (const [method, path, body] of asked) {
        const there = await client.refused(404, method, path, body)
        const nowhere = await client.refused(404, method, path.replace(id, randomUUID()), body)
        expect(there).toEqual(nowhere)
        expect((await stranger().tries(method, path, body)).status).toBe(401)
      }
    },
  )
})

describe('the list of accounts', () => {
  it('goes by name, page after page, and can be searched by its beginning and state', async () => {
    for (const name of ['list-c', 'LIST-b', 'list-a', 'list_d', 'list%e']) await invite({ name })
    const names: string[] = []
    let next: string | null = ''
    while (next !== null) {
      const page: { items: Account[]; next: string | null } = await admin.get(
        `/api/accounts?q=list-&limit=2${next && `&after=${next}`}`,
      )
      names.push(...page.items.map(({ name }) => name))
      next = page.next
    }
    expect(names).toEqual(['list-a', 'LIST-b', 'list-c'])
    const items = async (query: string) => (await admin.get<{ items: Account[] }>(`/api/accounts?${query}`)).items
    expect((await items('q=list%25')).map(({ name }) => name)).toEqual(['list%e'])
    expect((await items('q=list&state=active')).map(({ name }) => name)).toEqual([])
    expect((await items('state=active')).map(({ name }) => name)).toContain('admin')
    await admin.refused(400, 'GET', '/api/accounts?after=nonsense')
  })

  it('shows no hash, token or password', async () => {
    await invite()
    const { items } = await admin.get<{ items: Account[] }>('/api/accounts')
    expect(Object.keys(items[0]!).sort()).toEqual(
      [
        'hasFactor',
        'id',
        'lastSeenAt',
        'linkExpiresAt',
        'linkedWith',
        'name',
        'roles',
        'soldier',
        'soldierId',
        'state',
        'unitId',
      ].sort(),
    )
  })
})

describe('the record', () => {
  it('has every change with who, before and after', async () => {
    const { id } = await invite()
    await admin.put(`/api/accounts/${id}`, { roles: ['office', 'administrator'], soldierId: null, unitId: null }, 200)
    await admin.put(`/api/accounts/${id}/disabled`, { disabled: true }, 200)
    const { items } = await admin.get<{ items: Record<string, unknown>[] }>(`/api/record?subjectId=${id}`)
    expect(items.map(({ action, accountName }) => [action, accountName])).toEqual([
      ['account.disabled', 'admin'],
      ['account.reach-changed', 'admin'],
      ['account.invited', 'admin'],
    ])
    expect(items[1]).toMatchObject({ before: { roles: ['office'] }, after: { roles: ['office', 'administrator'] } })
  })
})

describe('in the demo', () => {
  it('the accounts of the demo keep their public password', async () => {
    const demo = await buildTestApp({ demo: true })
    try {
      const leader = await demo.signedIn({ name: 'leader' })
      const boss = await demo.signedIn({ name: 'admin', roles: ['administrator'] })
      const changed = await leader.refused(409, 'PUT', '/api/account/password', { current: PASSWORD, next: CHOSEN })
      expect(changed.type).toBe('urn:reviewstand:problem:demo-account')
      const [row] = await demo.sql<{ id: string }>("SELECT id FROM account WHERE name = 'leader'")
      await boss.refused(409, 'POST', `/api/accounts/${row!.id}/link`)
      const own = await demo.signedIn({ name: 'somebody-else' })
      await own.put('/api/account/password', { current: PASSWORD, next: CHOSEN }, 200)
    } finally {
      await demo.close()
    }
  })
})
