import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Account } from '../../../server/contract/accounts/accounts.ts'
import type { ClaimRule, Trial, TrialBody } from '../../../server/contract/sign-on/providers.ts'
import { makeSoldier, makeUnit } from '../../support/factories.ts'
import { browserAt, buildSignOnWorld, type Directory, type SignOnWorld } from '../../support/sign-on/sign-on-world.ts'

let world: SignOnWorld
let directory: Directory
let platoonA: string
let platoonB: string
let rules: ClaimRule[]

const rule = (value: string, role: ClaimRule['role'], unitId: string | null = null): ClaimRule => ({
  claim: 'groups',
  test: 'contains',
  value,
  role,
  unitId,
})

beforeAll(async () => {
  world = await buildSignOnWorld()
  platoonA = await makeUnit(world.test.office, { name: 'Platoon A', kind: 'platoon' })
  platoonB = await makeUnit(world.test.office, { name: 'Platoon B', kind: 'platoon' })
  await makeSoldier(world.test.office, platoonA, { rosterNumber: '1007' })
  await makeSoldier(world.test.office, platoonA, { rosterNumber: '1008' })
  rules = [
    rule('clerks', 'office'),
    rule('leaders-a', 'leader', platoonA),
    rule('leaders-b', 'leader', platoonB),
    rule('graders', 'grader'),
    rule('keepers', 'administrator'),
  ]
  directory = await world.addProvider({ name: 'Directory', makesAccounts: true, soldierClaim: 'roster_number', rules })
})
afterAll(() => world?.close())

const refusal = (why: string) => `/sign-in?signOn=${why}&provider=${directory.id}`
const person = (name: string, groups: string[], more = {}) =>
  directory.provider.people.set(name, { preferred_username: name, groups, ...more })

async function signIn(name: string) {
  const browser = browserAt(world.url)
  const path = await browser.signIn(directory.id, name)
  return { browser, path, session: await browser.session() }
}

const accounts = async (q: string) => (await world.warden.get<{ items: Account[] }>(`/api/accounts?q=${q}`)).items

describe('an account is made at the first sign-in', () => {
  it('with the roles and the unit the rules give', async () => {
    person('anna', ['clerks', 'leaders-a'])
    const { path, session } = await signIn('anna')
    expect(path).toBe('/')
    expect(session).toMatchObject({ name: 'anna', roles: ['office', 'leader'], unitId: platoonA })
    expect(await accounts('anna')).toMatchObject([{ state: 'active', linkedWith: ['Directory'] }])
    const entry = await world.test.sql("SELECT after FROM record_entry WHERE action = 'account.made-by-provider'")
    expect(entry).toEqual([
      { after: { name: 'anna', roles: ['office', 'leader'], unitId: platoonA, soldierId: null, by: 'Directory' } },
    ])
  })

  it('once, however many sign-ins come at the same time', async () => {
    person('many', ['clerks'])
    const found = await Promise.all(['1', '2', '3', '4'].map(() => signIn('many')))
    expect(found.map(({ path }) => path)).toEqual(['/', '/', '/', '/'])
    expect(await accounts('many')).toHaveLength(1)
  })

  it('never as an administrator, unless the provider’s settings say so', async () => {
    person('keeper', ['keepers'])
    expect((await signIn('keeper')).path).toBe(refusal('no-role'))
    expect(await accounts('keeper')).toEqual([])
    await directory.change({ makesAdministrators: true })
    expect((await signIn('keeper')).session).toMatchObject({ roles: ['administrator'] })
    await directory.change({})
  })

  it('not where no rule fits, or the name is somebody’s, or there is none', async () => {
    person('stranger', ['visitors'])
    expect((await signIn('stranger')).path).toBe(refusal('no-role'))
    person('look-alike', ['clerks'], { preferred_username: 'ＷＡＲＤＥＮ' })
    expect((await signIn('look-alike')).path).toBe(refusal('name-taken'))
    person('two lines', ['clerks'], { preferred_username: 'a\nb' })
    expect((await signIn('two lines')).path).toBe(refusal('no-name'))
    person('nameless', ['clerks'], { preferred_username: undefined })
    expect((await signIn('nameless')).path).toBe(refusal('no-name'))
  })

  it('not where the administrator has not said so', async () => {
    await directory.change({ makesAccounts: false })
    person('uninvited', ['clerks'])
    expect((await signIn('uninvited')).path).toBe(refusal('no-account'))
    await directory.change({})
  })

  it('as the soldier of the roster number, and never as one who has an account', async () => {
    person('grader', ['graders'], { roster_number: '1007' })
    const { session } = await signIn('grader')
    expect(session).toMatchObject({ roles: ['grader'] })
    expect((await accounts('grader'))[0]!.soldier).toMatch(/^1007 /)
    person('second', ['graders'], { roster_number: '1007' })
    expect((await signIn('second')).path).toBe(refusal('soldier-taken'))
    person('unknown', ['graders'], { roster_number: '9999' })
    expect((await signIn('unknown')).path).toBe(refusal('no-role'))
  })
})

describe('later sign-ins', () => {
  it('leave the roles as they are, where the rules are for the first', async () => {
    person('berta', ['clerks'])
    await signIn('berta')
    person('berta', ['leaders-a'])
    expect((await signIn('berta')).session).toMatchObject({ roles: ['office'] })
  })

  it('follow the rules where they are for each, on record, also in sessions that go on', async () => {
    await directory.change({ rulesEachTime: true })
    person('carla', ['clerks'])
    const { browser } = await signIn('carla')
    person('carla', ['leaders-b'])
    expect((await signIn('carla')).session).toMatchObject({ roles: ['leader'], unitId: platoonB })
    expect(await browser.session()).toMatchObject({ roles: ['leader'], unitId: platoonB })
    const changed = "SELECT before, after, reason FROM record_entry WHERE action = 'account.reach-changed'"
    const [entry] = await world.test.sql(changed)
    expect(entry).toMatchObject({
      before: { roles: ['office'], unitId: null },
      after: { roles: ['leader'], unitId: platoonB },
      reason: 'By the rules of Directory',
    })
    await signIn('carla')
    expect(await world.test.sql(changed)).toHaveLength(1)
    await directory.change({})
  })

  it('are refused, and every session ends, where no rule fits any more', async () => {
    await directory.change({ rulesEachTime: true })
    person('doris', ['clerks'])
    const { browser, session } = await signIn('doris')
    const body = { name: 'roster', scopes: ['roster:read'], unitId: null, days: 30 }
    const made = await browser.send('/api/account/tokens', body)
    expect(made.status, await made.clone().text()).toBe(201)
    const { token } = (await made.json()) as { token: string }
    const asksByToken = async () =>
      (await fetch(`${world.url}/api/soldiers`, { headers: { authorization: `Bearer ${token}` } })).status
    expect(await asksByToken()).toBe(200)
    const address = 'doris@unit.example'
    await world.test.sql(
      'INSERT INTO mail_address (account_id, address, set_at, confirmed_at) VALUES ($1, $2, now(), now())',
      [session!.accountId, address],
    )
    person('doris', [])
    expect((await signIn('doris')).path).toBe(refusal('no-role'))
    expect(await browser.session()).toBeNull()
    expect(await asksByToken()).toBe(401)
    const mail = 'SELECT confirmed_at FROM mail_address WHERE address = $1'
    expect(await world.test.sql(mail, [address])).toEqual([{ confirmed_at: null }])
    expect(
      await world.test.sql("SELECT after, reason FROM record_entry WHERE action = 'account.out-of-reach'"),
    ).toEqual([
      {
        after: { sessionsEnded: 1, tokensRevoked: 1, mailStopped: true },
        reason: 'No rule of Directory fits any more',
      },
    ])
    await directory.change({})
  })

  it('take the last administrator with a password nothing', async () => {
    await directory.change({ rulesEachTime: true, makesAdministrators: true })
    person('chief', ['keepers'])
    await signIn('chief')
    await world.test.sql(
      "UPDATE account SET password_hash = (SELECT password_hash FROM account WHERE name = 'warden') WHERE name = 'chief'",
    )
    await world.test.sql("UPDATE account SET disabled_at = now() WHERE name = 'warden'")
    person('chief', ['clerks'])
    expect((await signIn('chief')).session).toMatchObject({ roles: ['office', 'administrator'] })
    await world.test.sql("UPDATE account SET disabled_at = NULL WHERE name = 'warden'")
    expect((await signIn('chief')).session).toMatchObject({ roles: ['office'] })
    await directory.change({})
  })
})

describe('rules are tried before they hold', () => {
  const trial = (sample: unknown, more: Partial<TrialBody> = {}) =>
    world.warden.post<Trial>(
      '/api/sign-on-providers/trial',
      {
        sample: typeof sample === 'string' ? sample : JSON.stringify(sample),
        makesAdministrators: false,
        nameClaim: 'preferred_username',
        soldierClaim: 'roster_number',
        rules,
        ...more,
      },
      200,
    )

  it('on claims, and say what came of each', async () => {
    const claims = {
      sub: 'x-1',
      preferred_username: 'new one',
      groups: ['clerks', 'leaders-a', 'leaders-b', 'graders', 'keepers'],
      roster_number: 1008,
    }
    expect(await trial(claims)).toEqual({
      subject: 'x-1',
      name: 'new one',
      nameTaken: false,
      soldierNumber: '1008',
      soldier: expect.stringMatching(/^1008 Ashford/),
      soldierTaken: false,
      roles: ['office', 'leader', 'grader'],
      unitId: platoonA,
      outcomes: ['given', 'given', 'other-unit', 'given', 'no-administrators'],
    })
  })

  it('on a token, of which only the claims are read', async () => {
    const token = await directory.provider.sign({ sub: 'x-2', preferred_username: 'warden', groups: ['graders'] })
    expect(await trial(token)).toMatchObject({
      subject: 'x-2',
      name: 'warden',
      nameTaken: true,
      roles: [],
      outcomes: ['does-not-fit', 'does-not-fit', 'does-not-fit', 'no-soldier', 'does-not-fit'],
    })
  })

  it.each(['', 'nonsense', '[]', '"text"', 'null', 'a.b.c'])('and refuse what holds no claims: %j', async (sample) => {
    const body = { sample, makesAdministrators: false, nameClaim: 'a', soldierClaim: null, rules }
    const refused = await world.warden.refused(422, 'POST', '/api/sign-on-providers/trial', body)
    expect(refused.errors).toMatchObject([{ pointer: '/sample' }])
  })

  it('without leaving anything', async () => {
    const before = (await world.warden.get<{ items: Account[] }>('/api/accounts')).items.length
    await trial({ sub: 'x-3', preferred_username: 'ghost', groups: ['clerks'] })
    expect((await world.warden.get<{ items: Account[] }>('/api/accounts')).items).toHaveLength(before)
    expect(await world.test.sql("SELECT 1 FROM record_entry r WHERE r::text LIKE '%ghost%'")).toEqual([])
  })
})
