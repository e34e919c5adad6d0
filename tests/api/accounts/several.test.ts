import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { InvitationLinks, ProposedNames, SoldierWithout } from '../../../server/contract/accounts/several.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { type Client, createClient } from '../../support/client.ts'
import { makeSoldier, makeTestSetting, makeUnit } from '../../support/factories.ts'

let test: TestApp
let admin: Client
let top: string
let platoon: string
let other: string
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  admin = await test.signedIn({ name: 'admin', roles: ['administrator'] })
})
afterAll(() => test.close())
beforeEach(async () => {
  top = await makeUnit(test.office)
  platoon = await makeUnit(test.office, { kind: 'platoon', parentId: top, timeZone: null })
  other = await makeUnit(test.office, { kind: 'platoon', parentId: top, timeZone: null })
})

const without = async (query: string): Promise<SoldierWithout[]> =>
  (await admin.get<{ items: SoldierWithout[] }>(`/api/accounts/without?${query}`)).items
const invitation = (name: string, soldierId: string | null, changes = {}) => ({
  name,
  roles: ['soldier'],
  soldierId,
  unitId: null,
  ...changes,
})
const countAccounts = async () => (await test.sql<{ count: number }>('SELECT count(*)::int FROM account'))[0]!.count
let made = 0
const fresh = () => `several-${made++}`

describe('who has no account', () => {
  it('is listed with sponsors and graders first, by unit and by what they are named as', async () => {
    const plain = await makeSoldier(test.office, platoon, { familyName: 'Abel' })
    const sponsor = await makeSoldier(test.office, platoon, { familyName: 'Zorn' })
    const grader = await makeSoldier(test.office, other, { familyName: 'Yates' })
    await test.office.post(`/api/soldiers/${plain}/sponsorships`, { sponsorId: sponsor, from: '2026-01-01' })
    const { standard } = await makeTestSetting(test.office)
    await test.office.post(`/api/soldiers/${grader}/appointments`, { standard, from: '2026-01-01' })
    const ids = (items: SoldierWithout[]) => items.map(({ id }) => id)
    expect(ids(await without(`unitId=${top}`))).toEqual([grader, sponsor, plain])
    expect(ids(await without(`unitId=${platoon}`))).toEqual([sponsor, plain])
    expect(ids(await without(`unitId=${top}&need=sponsor`))).toEqual([sponsor])
    expect(await without(`unitId=${top}&need=grader`)).toMatchObject([{ id: grader, isGrader: true, isSponsor: false }])

    const first = await admin.get<{ items: SoldierWithout[]; next: string }>(
      `/api/accounts/without?unitId=${top}&limit=2`,
    )
    const rest = await without(`unitId=${top}&limit=2&after=${first.next}`)
    expect([...ids(first.items), ...ids(rest)]).toEqual([grader, sponsor, plain])

    await admin.post('/api/accounts', invitation(fresh(), grader, { roles: ['grader'] }))
    expect(ids(await without(`unitId=${top}`))).toEqual([sponsor, plain])
  })

  it('leaves out who has left and has those who have yet to join', async () => {
    const gone = await makeSoldier(test.office, platoon)
    await test.office.post(`/api/soldiers/${gone}/changes`, { from: '2026-06-01', left: 'separated' }, 200)
    const coming = await makeSoldier(test.office, platoon, { from: '2026-07-01' })
    expect((await without(`unitId=${platoon}`)).map(({ id }) => id)).toEqual([coming])
  })

  it('is found by parts of number, name or grade, whatever their case and order', async () => {
    const who = { familyName: 'Oduya', givenName: 'Renske', rosterNumber: 'ZX-4711', grade: 'SFC' }
    const found = await makeSoldier(test.office, platoon, who)
    await makeSoldier(test.office, platoon, { familyName: 'Oduya', givenName: 'Bo', grade: 'PVT' })
    const ids = async (q: string) =>
      (await without(new URLSearchParams({ unitId: top, q }).toString())).map(({ id }) => id)
    for (const q of ['zx-47', 'RENSKE, od', 'oduya sfc', ' sfc ']) expect(await ids(q), q).toEqual([found])
    expect(await ids('oduya')).toHaveLength(2)
    for (const q of ['%', 'renske pvt', '_']) expect(await ids(q), q).toEqual([])
  })

  it('is nothing for others, and refuses a unit that is none', async () => {
    await test.office.refused(404, 'GET', '/api/accounts/without')
    await test.office.refused(404, 'POST', '/api/accounts/names', { soldierIds: [randomUUID()] })
    await test.office.refused(404, 'POST', '/api/accounts/several', { accounts: [invitation(fresh(), null)] })
    await admin.refused(404, 'GET', `/api/accounts/without?unitId=${randomUUID()}`)
  })
})

describe('accounts for many at once', () => {
  it('are made with the names proposed, each with a link that works and an entry of its own on record', async () => {
    const people = [
      await makeSoldier(test.office, platoon, { familyName: 'Reyes', givenName: 'Lia' }),
      await makeSoldier(test.office, platoon, { familyName: 'Reyes', givenName: 'Lia' }),
    ]
    const { items } = await admin.post<ProposedNames>('/api/accounts/names', { soldierIds: people }, 200)
    expect(items.map(({ name }) => name)).toEqual(['reyes.lia', 'reyes.lia2'])
    const links = await admin.post<InvitationLinks>('/api/accounts/several', {
      accounts: items.map(({ name, soldierId }) => invitation(name, soldierId)),
    })
    for (const { name, token } of links.items) {
      const client = createClient(test.app.server)
      const answer = await client.tries('POST', '/api/welcome', { token, password: 'the drums beat at noon' })
      expect(answer).toMatchObject({ status: 200, body: { name } })
    }
    const entries = await test.sql(
      "SELECT 1 FROM record_entry WHERE action = 'account.invited' AND subject_id = ANY($1::text[])",
      [links.items.map(({ id }) => id)],
    )
    expect(entries).toHaveLength(2)
    const [record] = await test.sql<{ all: string }>("SELECT string_agg(e::text, '') AS all FROM record_entry e")
    for (const { token } of links.items) expect(record!.all).not.toContain(token)
  })

  it('are all made or none, and every fault is said at its place', async () => {
    const soldier = await makeSoldier(test.office, platoon)
    await admin.post('/api/accounts', invitation('Ines Nwosu', null, { roles: ['office'] }))
    const before = await countAccounts()
    const problem = await admin.refused(422, 'POST', '/api/accounts/several', {
      accounts: [
        invitation(fresh(), soldier),
        invitation('lnes nwosu', null, { roles: ['office'] }),
        invitation(fresh(), soldier),
        invitation(fresh(), null, { roles: ['leader'] }),
        invitation(fresh(), randomUUID()),
        invitation('twice over', null, { roles: ['office'] }),
        invitation('Twice Over', null, { roles: ['office'] }),
      ],
    })
    expect(problem.errors?.map(({ pointer }) => pointer)).toEqual([
      '/accounts/1/name',
      '/accounts/2/soldierId',
      '/accounts/3/unitId',
      '/accounts/4/soldierId',
      '/accounts/6/name',
    ])
    expect(await countAccounts()).toBe(before)
  })

  it('are two hundred at the most', async () => {
    const accounts = Array.from({ length: 201 }, () => invitation(fresh(), null, { roles: ['office'] }))
    await admin.refused(422, 'POST', '/api/accounts/several', { accounts })
    const { items } = await admin.post<InvitationLinks>('/api/accounts/several', { accounts: accounts.slice(1) })
    expect(new Set(items.map(({ token }) => token)).size).toBe(200)
  })

  it('are made once where two administrators make them at the same time', async () => {
    const soldiers = [await makeSoldier(test.office, platoon), await makeSoldier(test.office, platoon)]
    const names = [fresh(), fresh()]
    const accounts = soldiers.map((id, at) => invitation(names[at]!, id))
    const answers = await Promise.all([
      admin.tries('POST', '/api/accounts/several', { accounts }),
      admin.tries('POST', '/api/accounts/several', { accounts: accounts.toReversed() }),
    ])
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 422])
  })
})
