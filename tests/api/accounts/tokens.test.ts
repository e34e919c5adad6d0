import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { MadeToken, ScriptToken, TokenBody } from '../../../server/contract/accounts/tokens.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import type { Client, Method } from '../../support/client.ts'
import { makeSoldier, makeTestSetting, makeUnit, putSheet, type TestSetting } from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

const NOW = '2026-06-15T12:00:00Z'
const DAY_MS = 86_400_000

/** All that a token may be for. */
const EVERYTHING: TokenBody['scopes'] = [
  'roster:read',
  'roster:write',
  'readiness:read',
  'sheets:read',
  'sheets:write',
  'test-days:read',
  'ceremonies:read',
  'standards:read',
]

let test: TestApp
let platoonA: string
let platoonB: string
let inside: TestSetting
let outside: TestSetting
let named = 0

beforeAll(async () => {
  test = await buildTestApp({ now: NOW })
  const top = await makeUnit(test.office, { name: 'Battalion' })
  platoonA = await makeUnit(test.office, { name: 'Platoon A', kind: 'platoon', parentId: top })
  platoonB = await makeUnit(test.office, { name: 'Platoon B', kind: 'platoon', parentId: top })
  inside = await settingIn(platoonA)
  outside = await settingIn(platoonB)
  for (const { candidateId, standard, graderId, unitId } of [inside, outside]) {
    const { id } = await test.office.post('/api/test-days', { on: '2026-06-20', unitId })
    await test.office.post(`/api/test-days/${id}/bookings`, { candidateId, standard, graderId })
  }
})
afterAll(() => test.close())

async function settingIn(unitId: string): Promise<TestSetting> {
  const setting = await makeTestSetting(test.office)
  for (const id of [setting.candidateId, setting.sponsorId, setting.graderId]) {
    await test.office.post(`/api/soldiers/${id}/changes`, { from: '2020-01-02', unitId }, 200)
  }
  await putSheet(test.office, setting.sheet(times('2026-06-10')))
  return { ...setting, unitId }
}

const bodyOf = (more: Partial<TokenBody> = {}) => ({
  name: `Script ${named++}`,
  scopes: ['roster:read'],
  days: 30,
  ...more,
})

const make = (client: Client, more: Partial<TokenBody> = {}) =>
  client.post<MadeToken>('/api/account/tokens', bodyOf(more))

const bearer = (token: string) => ({ authorization: `Bearer ${token}` })
const by = (token: string, method: Method, path: string, body?: unknown) =>
  test.nobody.tries(method, path, body, bearer(token))
const statusBy = async (...asked: Parameters<typeof by>) => (await by(...asked)).status
const problemBy = async (...asked: Parameters<typeof by>) => {
  const { status, body } = await by(...asked)
  return `${status} ${(body as { type: string }).type.replace('urn:reviewstand:problem:', '')}`
}

describe('a token', () => {
  it('is told once, kept as a hash only, and listed without itself', async () => {
    const client = await test.signedIn({ name: 'keeper' })
    const { id, token, expiresAt } = await make(client, { name: 'Nightly', scopes: ['roster:read', 'sheets:write'] })
    expect(token).toMatch(/^reviewstand-[\w-]{43}$/)
    expect(expiresAt).toBe('2026-07-15T12:00:00.000Z')
    const { items } = await client.get<{ items: ScriptToken[] }>('/api/account/tokens')
    expect(items).toEqual([
      {
        id,
        name: 'Nightly',
        scopes: ['roster:read', 'sheets:write'],
        unitId: null,
        createdAt: '2026-06-15T12:00:00.000Z',
        expiresAt,
        lastUsedOn: null,
      },
    ])
    const rows = await test.sql<{ text: string }>(
      `SELECT t::text AS text FROM script_token t UNION ALL
       SELECT r::text FROM record_entry r WHERE action = 'account.token-made'`,
    )
    expect(rows.length).toBeGreaterThan(1)
    for (const { text } of rows) expect(text).not.toContain(token.slice('reviewstand-'.length))
    expect(JSON.stringify(rows)).not.toContain(PASSWORD)
  })

  it('is made by whoever has just shown who they are', async () => {
    const client = await test.signedIn({ name: 'guessed' })
    test.clock.now = new Date(test.clock.now.getTime() + 600_000)
    const refused = await client.refused(403, 'POST', '/api/account/tokens', bodyOf())
    expect(refused.type).toMatch(/confirm-identity$/)
    await client.post('/api/account/confirmation', { password: PASSWORD }, 200)
    await make(client)
    test.clock.now = new Date(test.clock.now.getTime() - 600_000)
  })

  it('has a name of its own, something to do, and an end within a year', async () => {
    const client = await test.signedIn({ name: 'careless' })
    await make(client, { name: 'Same' })
    expect((await client.refused(409, 'POST', '/api/account/tokens', bodyOf({ name: 'Same' }))).type).toMatch(
      /name-used$/,
    )
    const wrong = [
      { name: ' ' },
      { name: 'two\nlines' },
      { scopes: [] },
      { scopes: ['sheets:read', 'sheets:read'] },
      { scopes: ['accounts:write'] as never },
      { days: 0 },
      { days: 367 },
    ]
    for (const part of wrong) {
      await client.refused(422, 'POST', '/api/account/tokens', bodyOf(part as Partial<TokenBody>))
    }
  })

  it('is one of twenty at the most', async () => {
    const client = await test.signedIn({ name: 'hoarder' })
    const made = []
    for (let count = 0; count < 20; count += 1) made.push(await make(client))
    expect((await client.refused(409, 'POST', '/api/account/tokens', bodyOf())).type).toMatch(/too-many-tokens$/)
    await client.tries('DELETE', `/api/account/tokens/${made[0]!.id}`)
    await make(client)
  })

  it('tells the day of its last use, in UTC', async () => {
    const client = await test.signedIn({ name: 'watcher' })
    const { token } = await make(client)
    await by(token, 'GET', '/api/units')
    test.clock.now = new Date('2026-06-15T23:59:59Z')
    await by(token, 'GET', '/api/units')
    const { items } = await client.get<{ items: ScriptToken[] }>('/api/account/tokens')
    test.clock.now = new Date(NOW)
    expect(items).toMatchObject([{ lastUsedOn: '2026-06-15' }])
  })
})

describe('a token ends', () => {
  it('when it expires, to the moment', async () => {
    const { token } = await make(test.office, { days: 1 })
    test.clock.now = new Date(Date.parse(NOW) + DAY_MS - 1)
    expect(await statusBy(token, 'GET', '/api/units')).toBe(200)
    test.clock.now = new Date(Date.parse(NOW) + DAY_MS)
    const { status, headers } = await by(token, 'GET', '/api/units')
    test.clock.now = new Date(NOW)
    expect([status, headers['www-authenticate']]).toEqual([401, 'Bearer error="invalid_token"'])
  })

  it('at once when it is revoked, by nobody but its owner', async () => {
    const client = await test.signedIn({ name: 'revoker' })
    const { id, token } = await make(client)
    await test.office.refused(404, 'DELETE', `/api/account/tokens/${id}`)
    expect(await statusBy(token, 'GET', '/api/units')).toBe(200)
    expect((await client.tries('DELETE', `/api/account/tokens/${id}`)).status).toBe(204)
    expect(await statusBy(token, 'GET', '/api/units')).toBe(401)
  })

  it.each(['disabled', 'link'])('for good when an administrator takes the account away: %s', async (how) => {
    const warden = await test.signedIn({ name: `warden ${how}`, roles: ['administrator'] })
    const client = await test.signedIn({ name: `owner ${how}` })
    const { accountId } = await client.get<{ accountId: string }>('/api/session')
    const { token } = await make(client)
    if (how === 'link') await warden.post(`/api/accounts/${accountId}/link`)
    else {
      await warden.put(`/api/accounts/${accountId}/disabled`, { disabled: true }, 200)
      expect(await statusBy(token, 'GET', '/api/units')).toBe(401)
      await warden.put(`/api/accounts/${accountId}/disabled`, { disabled: false }, 200)
    }
    expect(await statusBy(token, 'GET', '/api/units')).toBe(401)
  })
})

describe('a token may no more than its owner may at that moment', () => {
  it('follows a role that is taken', async () => {
    const warden = await test.signedIn({ name: 'warden of roles', roles: ['administrator'] })
    const client = await test.signedIn({ name: 'clerk' })
    const { accountId } = await client.get<{ accountId: string }>('/api/session')
    const { token } = await make(client, { scopes: ['sheets:read', 'sheets:write', 'roster:write'] })
    const seen = async () => (await by(token, 'GET', '/api/sheets')).body as { items: unknown[] }
    expect((await seen()).items).toHaveLength(2)
    await warden.put(`/api/accounts/${accountId}`, { roles: ['leader'], soldierId: null, unitId: platoonA }, 200)
    expect((await seen()).items).toHaveLength(1)
    expect(await statusBy(token, 'PUT', `/api/sheets/${randomUUID()}`, inside.sheet(times('2026-06-11')))).toBe(403)
    const absence = { from: '2026-08-01', through: '2026-08-02', kind: 'leave' }
    expect(await statusBy(token, 'POST', `/api/soldiers/${inside.candidateId}/absences`, absence)).toBe(403)
  })

  it('is no way around impartiality', async () => {
    const client = await test.signedIn({ name: 'own case', roles: ['office'], soldierId: inside.candidateId })
    const { token } = await make(client, { scopes: ['sheets:write'] })
    const body = inside.sheet(times('2026-06-12'))
    expect(await problemBy(token, 'PUT', `/api/sheets/${randomUUID()}`, body)).toBe('403 impartiality')
  })

  it('does not see a first sheet that its owner, as the second grader, must not see yet', async () => {
    const secondId = await makeSoldier(test.office, platoonA)
    const { id: day } = await test.office.post('/api/test-days', { on: '2026-06-15', unitId: platoonA })
    const { candidateId, standard, graderId } = await settingIn(platoonA)
    const { id } = await test.office.post(`/api/test-days/${day}/bookings`, { candidateId, standard, graderId })
    await test.office.post(`/api/bookings/${id}/second-grader`, { graderId: secondId }, 200)
    const first = { ...(await sheetFor(candidateId)), testDayId: day }
    await putSheet(test.office, first, id)
    const account = { roles: ['leader', 'grader'], soldierId: secondId, unitId: platoonA }
    const client = await test.signedIn({ name: 'second grader', ...account })
    const { token } = await make(client, { scopes: ['sheets:read'], unitId: platoonA })
    await client.refused(404, 'GET', `/api/sheets/${id}`)
    expect(await statusBy(token, 'GET', `/api/sheets/${id}`)).toBe(404)

    async function sheetFor(of: string) {
      const template = inside.sheet(times('2026-06-15'))
      return { ...template, standard, candidateId: of, graderId, sponsorId: null }
    }
  })

  it('answers no route that is not named for tokens, whoever asks', async () => {
    const all = await test.signedIn({
      name: 'everything',
      roles: ['office', 'administrator', 'commander'],
      unitId: platoonA,
    })
    const { token } = await make(all, { scopes: EVERYTHING })
    const { paths } = await test.nobody.get<{ paths: Paths }>('/api/openapi.json')
    const taken: string[] = []
    for (const [path, methods] of Object.entries(paths)) {
      for (const [method, { security }] of Object.entries(methods)) {
        if (security?.length === 0) continue
        const asked = `${method.toUpperCase()} ${path}`
        const named = security?.flatMap((way) => way.token ?? []) ?? []
        const address = path.replaceAll(/\{[^}]+\}/g, randomUUID())
        const { status, body } = await by(
          token,
          method.toUpperCase() as Method,
          address,
          method === 'get' ? undefined : {},
        )
        const refused = (body as { type?: string } | undefined)?.type === 'urn:reviewstand:problem:not-for-tokens'
        expect([asked, refused, status === 401]).toEqual([asked, named.length === 0, false])
        if (named.length > 0) taken.push(asked)
      }
    }
    expect(taken).toHaveLength(30)
    expect(taken.filter((asked) => !asked.startsWith('GET')).sort()).toEqual([
      'DELETE /api/absences/{id}',
      'POST /api/soldiers/{id}/absences',
      'PUT /api/absences/{id}',
      'PUT /api/sheets/{id}',
    ])
    expect(await problemBy(token, 'GET', '/api/nonsense')).toBe('403 not-for-tokens')
  })

  it('does only what it is for', async () => {
    const { token } = await make(test.office, { scopes: ['sheets:read'] })
    expect(await statusBy(token, 'GET', '/api/sheets')).toBe(200)
    expect(await problemBy(token, 'GET', '/api/soldiers')).toBe('403 token-not-for-this')
    expect(await problemBy(token, 'PUT', `/api/sheets/${randomUUID()}`, inside.sheet())).toBe('403 token-not-for-this')
  })
})

interface Operation {
  readonly security?: readonly { readonly token?: readonly string[] }[]
}
type Paths = Record<string, Record<string, Operation>>

describe('a token for one unit', () => {
  const scopes = EVERYTHING.filter((scope) => scope !== 'standards:read')

  it.each([
    ['the office', { roles: ['office'] }],
    ['who is of the office and keeps the server', { roles: ['office', 'administrator'] }],
    ['who grades there and is of the office', { roles: ['office', 'grader', 'sponsor'] }],
  ])('of %s sees and changes nothing beyond it', async (name, account) => {
    const soldierId = account.roles.includes('grader') ? outside.graderId : null
    const client = await test.signedIn({ name, ...account, soldierId })
    const { token } = await make(client, { scopes, unitId: platoonA })
    const hidden = [outside.candidateId, outside.sponsorId]
    const lists = [
      'soldiers',
      'soldiers?asOf=2026-06-01',
      'readiness',
      'retests',
      'readiness/units',
      'readiness/lapses',
      'sheets',
      'bookings',
    ]
    for (const list of lists) {
      const { status, body } = await by(token, 'GET', `/api/${list}`)
      expect([list, status]).toEqual([list, 200])
      const text = JSON.stringify(body)
      expect(
        hidden.filter((id) => text.includes(id)),
        list,
      ).toEqual([])
    }
    expect(JSON.stringify((await by(token, 'GET', '/api/soldiers')).body)).toContain(inside.candidateId)
    expect(JSON.stringify((await by(token, 'GET', '/api/sheets')).body)).toContain(inside.candidateId)
    const of = `/api/soldiers/${outside.candidateId}`
    expect(await statusBy(token, 'GET', `${of}/status`)).toBe(404)
    expect(await statusBy(token, 'GET', `${of}/absences`)).toBe(404)
    expect(await statusBy(token, 'GET', `/api/roster.csv?unitId=${platoonB}`)).toBe(404)
    const absence = { from: '2026-09-01', through: '2026-09-02', kind: 'leave' }
    expect(await statusBy(token, 'POST', `${of}/absences`, absence)).toBe(404)
    const { id } = await test.office.post(`${of}/absences`, absence)
    expect(await statusBy(token, 'PUT', `/api/absences/${id}`, absence)).toBe(404)
    expect(await statusBy(token, 'DELETE', `/api/absences/${id}`)).toBe(404)
    await test.office.tries('DELETE', `/api/absences/${id}`)
    const sheet = (of: TestSetting) => by(token, 'PUT', `/api/sheets/${randomUUID()}`, of.sheet(times('2026-06-11')))
    expect((await sheet(outside)).body).toMatchObject({ errors: [{ rule: 'unknown-person', pointer: '/candidateId' }] })
    expect((await sheet(inside)).status).toBe(201)
  })

  it('is made for a unit its owner leads, and for no other', async () => {
    const leader = await test.signedIn({ name: 'leader of A', roles: ['leader'], unitId: platoonA })
    await make(leader, { unitId: platoonA })
    for (const unitId of [platoonB, randomUUID()]) {
      const refused = await leader.refused(422, 'POST', '/api/account/tokens', bodyOf({ unitId }))
      expect(refused.errors).toMatchObject([{ pointer: '/unitId', rule: 'unit-out-of-reach' }])
    }
    const grader = await test.signedIn({ name: 'only grades', roles: ['grader'], soldierId: inside.graderId })
    await grader.refused(422, 'POST', '/api/account/tokens', bodyOf({ unitId: platoonA }))
  })

  it('stops when its owner leads another unit', async () => {
    const warden = await test.signedIn({ name: 'warden of units', roles: ['administrator'] })
    const leader = await test.signedIn({ name: 'moved', roles: ['leader'], unitId: platoonA })
    const { accountId } = await leader.get<{ accountId: string }>('/api/session')
    const { token } = await make(leader, { unitId: platoonA })
    expect(await statusBy(token, 'GET', '/api/soldiers')).toBe(200)
    await warden.put(`/api/accounts/${accountId}`, { roles: ['leader'], soldierId: null, unitId: platoonB }, 200)
    expect(await problemBy(token, 'GET', '/api/soldiers')).toBe('403 token-out-of-reach')
  })

  it('ends with the unit', async () => {
    const passing = await makeUnit(test.office, { name: 'Passing', kind: 'platoon', parentId: platoonA })
    const { token } = await make(test.office, { unitId: passing })
    expect(await statusBy(token, 'GET', '/api/soldiers')).toBe(200)
    await test.office.tries('DELETE', `/api/units/${passing}`)
    expect(await statusBy(token, 'GET', '/api/soldiers')).toBe(401)
  })
})

describe('a token on its way in', () => {
  it('never goes together with the cookie of a session', async () => {
    const { token } = await make(test.office)
    const { status, body } = await test.office.tries('GET', '/api/units', undefined, bearer(token))
    expect([status, body]).toMatchObject([400, { type: 'urn:reviewstand:problem:token-and-session' }])
  })

  it('is refused when it is none, and tells nothing', async () => {
    const session = await test.app.inject({
      method: 'POST',
      url: '/api/session',
      payload: { name: 'office', password: PASSWORD },
    })
    const cookie = session.cookies.find(({ name }) => name === 'reviewstand_session')!.value
    for (const text of ['x', 'A'.repeat(43), `reviewstand-${'A'.repeat(43)}`, cookie, `reviewstand-${cookie}`]) {
      expect(await problemBy(text, 'GET', '/api/units')).toBe('401 not-signed-in')
    }
  })

  it('is refused in whatever shape nonsense comes, and the server goes on', async () => {
    const { token } = await make(test.office)
    const odd = [
      'Bearer',
      'Bearer ',
      `Bearer ${token} ${token}`,
      `Bearer ${token},`,
      `Bearer "${token}"`,
      'Bearer \u00ff',
    ]
    odd.push(`Bearer ${'x'.repeat(7000)}`, `Bearer${token}`, `Token ${token}`, token, `Bearer ${token.toUpperCase()}`)
    for (const authorization of odd) {
      const { status } = await test.nobody.tries('GET', '/api/units', undefined, { authorization })
      expect([authorization.slice(0, 60), status]).toEqual([authorization.slice(0, 60), 401])
    }
    expect(await statusBy(token, 'GET', '/api/units')).toBe(200)
  })

  it('is known whatever the case of the scheme; another scheme is none of ours', async () => {
    const { token } = await make(test.office)
    for (const authorization of [`bearer ${token}`, `BEARER  ${token}`]) {
      expect((await test.nobody.tries('GET', '/api/units', undefined, { authorization })).status).toBe(200)
    }
    const basic = { authorization: 'Basic b2ZmaWNlOng=' }
    expect((await test.nobody.tries('GET', '/api/units', undefined, basic)).status).toBe(401)
    expect((await test.office.tries('GET', '/api/units', undefined, basic)).status).toBe(200)
  })

  it('is no cookie, and gives none', async () => {
    const { token } = await make(test.office)
    const { headers } = await by(token, 'GET', '/api/units')
    expect(headers['set-cookie']).toBeUndefined()
    const asCookie = { cookie: `reviewstand_session=${token}` }
    expect((await test.nobody.tries('GET', '/api/units', undefined, asCookie)).status).toBe(401)
  })

  it('puts its name into the record beside its owner’s, and both find it', async () => {
    const client = await test.signedIn({ name: 'Recorder' })
    const { token } = await make(client, { name: 'Leave system', scopes: ['roster:write'] })
    const absence = { from: '2026-10-01', through: '2026-10-02', kind: 'leave' }
    expect(await statusBy(token, 'POST', `/api/soldiers/${inside.candidateId}/absences`, absence)).toBe(201)
    const auditor = await test.signedIn({ name: 'auditor', roles: ['administrator'] })
    const { items } = await auditor.get<{ items: { action: string; accountName: string }[] }>(
      '/api/record?account=recorder',
    )
    expect(items.map(({ action, accountName }) => `${action} by ${accountName}`)).toEqual([
      'absence.added by Recorder, by token Leave system',
      'account.token-made by Recorder',
      'session.opened by Recorder',
    ])
  })
})

it('a token has a limit of its own, and takes nothing from its owner', async () => {
  const limited = await buildTestApp({ requestsPerMinute: 30 })
  try {
    const body = { ...bodyOf(), name: 'Wild' }
    const { token } = await limited.office.post<MadeToken>('/api/account/tokens', body)
    const statuses: number[] = []
    for (let count = 0; count < 4; count += 1) {
      statuses.push((await limited.nobody.tries('GET', '/api/units', undefined, bearer(token))).status)
    }
    expect(statuses).toEqual([200, 200, 200, 429])
    expect((await limited.office.tries('GET', '/api/units')).status).toBe(200)
  } finally {
    await limited.close()
  }
})
