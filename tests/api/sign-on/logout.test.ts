import { randomUUID } from 'node:crypto'
import type { JWTPayload } from 'jose'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest'
import { browserAt, buildSignOnWorld, type Directory, type SignOnWorld } from '../../support/sign-on/sign-on-world.ts'

const EVENTS = { 'http://schemas.openid.net/event/backchannel-logout': {} }

let world: SignOnWorld
let directory: Directory
let other: Directory
beforeAll(async () => {
  world = await buildSignOnWorld()
  directory = await world.addProvider()
  other = await world.addProvider()
  for (const { provider } of [directory, other]) provider.people.set('subject', {})
  await world.test.signedIn({ name: 'person' })
  const own = browserAt(world.url)
  await own.signInByPassword('person')
  await own.link(directory.id, 'subject')
})
afterAll(() => world?.close())

let here: ReturnType<typeof browserAt>
beforeEach(async () => {
  // The longest unused of twenty sessions gives way, so that each must be younger than the last.
  world.test.clock.now = new Date()
  here = browserAt(world.url)
  expect(await here.signIn(directory.id, 'subject')).toBe('/')
})

const isSignedIn = async () => (await here.session()) !== null

/** What a provider sends, without a browser. */
const send = (form: string | Record<string, string>, { id } = directory) =>
  fetch(`${world.url}/api/sign-on/logout/${id}`, { method: 'POST', body: new URLSearchParams(form) })

const seconds = () => Math.floor(Date.now() / 1000)
const word = (more: JWTPayload = {}): JWTPayload => ({
  iss: directory.provider.issuer,
  aud: 'reviewstand',
  iat: seconds(),
  exp: seconds() + 120,
  jti: randomUUID(),
  sub: 'subject',
  events: EVENTS,
  ...more,
})
const sign = (payload: JWTPayload, header = {}) => directory.provider.sign(payload, { typ: 'logout+jwt', ...header })

describe('signing out here', () => {
  it('ends the session at the provider, too, and comes back to our own page', async () => {
    const { address } = (await (await here.send('/api/sign-on/leave', {})).json()) as { address: string }
    expect(await isSignedIn()).toBe(false)
    const end = new URL(address)
    expect(end.origin).toBe(directory.provider.issuer)
    const question = await (await here.ask(address)).text()
    const xsrf = /name="xsrf" value="([^"]+)"/.exec(question)![1]!
    const confirm = /action="([^"]+)"/.exec(question)![1]!
    const body = new URLSearchParams({ xsrf, logout: 'yes' })
    const back = await here.ask(confirm, { method: 'POST', body })
    expect(back.headers.get('location')).toBe(`${world.url}/sign-in`)
    // The provider asks again who it is.
    const begun = await here.send('/api/sign-on/start', { providerId: directory.id, returnPath: '/' })
    const next = await here.follow(((await begun.json()) as { address: string }).address, '', ({ pathname }) =>
      pathname.startsWith('/login/'),
    )
    expect(next.origin).toBe(directory.provider.issuer)
  })

  it('goes nowhere else where a password opened the session', async () => {
    const own = browserAt(world.url)
    await own.signInByPassword('person')
    expect(await (await own.send('/api/sign-on/leave', {})).json()).toEqual({ address: null })
    expect(await own.session()).toBeNull()
    expect(await isSignedIn()).toBe(true)
  })

  it('keeps the ID token sealed until then, and not after', async () => {
    const rows = await world.test.sql<{ text: string }>(
      "SELECT encode(id_token, 'escape') AS text FROM sign_on_session",
    )
    expect(rows.length).toBeGreaterThan(0)
    for (const { text } of rows) expect(text).not.toContain('eyJ')
    await here.send('/api/sign-on/leave', {})
    expect(await world.test.sql('SELECT 1 FROM sign_on_session')).toHaveLength(rows.length - 1)
  })
})

it('ends our own session also where the server has another key than before', async () => {
  await world.test.sql("UPDATE sign_on_provider SET client_secret = '\\x00' WHERE id = $1", [directory.id])
  expect(await (await here.send('/api/sign-on/leave', {})).json()).toEqual({ address: null })
  expect(await isSignedIn()).toBe(false)
  await directory.change({})
})

describe('signing out at the provider', () => {
  it('ends the session here at once, by the provider’s own word', async () => {
    const elsewhere = browserAt(world.url)
    await elsewhere.signIn(directory.id, 'subject')
    const question = await (await here.ask(`${directory.provider.issuer}/session/end`)).text()
    const xsrf = /name="xsrf" value="([^"]+)"/.exec(question)![1]!
    const confirm = /action="([^"]+)"/.exec(question)![1]!
    await here.ask(confirm, { method: 'POST', body: new URLSearchParams({ xsrf, logout: 'yes' }) })
    expect(await isSignedIn()).toBe(false)
    // It was one session there; the other browser has one of its own.
    expect(await elsewhere.session()).not.toBeNull()
    const entry = await world.test.sql(
      "SELECT after FROM record_entry WHERE action = 'session.ended-by-provider' ORDER BY seq DESC LIMIT 1",
    )
    expect(entry).toEqual([{ after: { by: directory.body.name, ended: 1 } }])
  })

  it('ends all that were opened for a subject, and none that a password opened', async () => {
    const own = browserAt(world.url)
    await own.signInByPassword('person')
    const answer = await send({ logout_token: await sign(word()) })
    expect([answer.status, answer.headers.get('cache-control')]).toEqual([200, 'no-store'])
    expect(await isSignedIn()).toBe(false)
    expect(await own.session()).not.toBeNull()
  })

  it('is taken once: the same word again ends nothing', async () => {
    const token = await sign(word())
    expect((await send({ logout_token: token })).status).toBe(200)
    await here.signIn(directory.id, 'subject')
    const again = await send({ logout_token: token })
    expect(again.status).toBe(400)
    expect(await again.json()).toMatchObject({ type: 'urn:reviewstand:problem:logout-token-refused' })
    expect(await isSignedIn()).toBe(true)
  })

  it('is taken once by many at the same time', async () => {
    const token = await sign(word({ sub: 'nobody here' }))
    const answers = await Promise.all(Array.from({ length: 6 }, () => send({ logout_token: token })))
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 400, 400, 400, 400, 400])
  })

  it.each<[string, JWTPayload, object?]>([
    ['for another client', { aud: 'another' }],
    ['of another issuer', { iss: 'https://login.example.org' }],
    ['without the event', { events: undefined }],
    ['with another event', { events: { 'urn:other': {} } }],
    ['with an event that says nothing', { events: { [Object.keys(EVENTS)[0]!]: null } }],
    ['with a nonce, as an ID token has', { nonce: 'x' }],
    ['without an id', { jti: undefined }],
    ['without a time', { iat: undefined }],
    ['of an hour ago', { iat: seconds() - 3600 }],
    ['expired', { exp: seconds() - 60 }],
    ['of tomorrow', { iat: seconds() + 86_400, exp: seconds() + 90_000 }],
    ['about nobody', { sub: undefined }],
    ['of another kind', {}, { typ: 'at+jwt' }],
  ])('takes no word %s', async (_, more, header = {}) => {
    const answer = await send({ logout_token: await sign(word(more), header) })
    expect(answer.status).toBe(400)
    expect(await isSignedIn()).toBe(true)
  })

  it('takes no word of one provider for another', async () => {
    const token = await other.provider.sign(word({ iss: directory.provider.issuer }), { typ: 'logout+jwt' })
    const status = async () => (await send({ logout_token: token })).status
    // Just after the keys were heard it could be by a newer one, and is asked for again.
    await expect.poll(status, { interval: 1_000 }).toBe(400)
    const ofOther = await other.provider.sign(word({ iss: other.provider.issuer }), { typ: 'logout+jwt' })
    expect((await send({ logout_token: ofOther }, other)).status).toBe(200)
    expect(await isSignedIn()).toBe(true)
  })

  it.each(['', 'logout_token=', 'logout_token=x', 'logout_token=a.b.c', 'other=1', 'logout_token=1&logout_token=2'])(
    'takes no form of nonsense: %j',
    async (form) => {
      expect((await send(form)).status).toBeOneOf([400, 422])
      expect(await isSignedIn()).toBe(true)
    },
  )

  it('takes no word by way of a browser of somebody else', async () => {
    const headers = { origin: 'https://evil.example', 'sec-fetch-site': 'cross-site' }
    const body = new URLSearchParams({ logout_token: await sign(word()) })
    const answer = await fetch(`${world.url}/api/sign-on/logout/${directory.id}`, { method: 'POST', body, headers })
    expect(answer.status).toBe(403)
    expect(await isSignedIn()).toBe(true)
  })

  it('is heard of a provider that is switched off, too', async () => {
    await directory.change({ enabled: false })
    expect((await send({ logout_token: await sign(word()) })).status).toBe(200)
    expect(await isSignedIn()).toBe(false)
    await directory.change({})
  })

  it('forgets words that could not be sent again', async () => {
    await send({ logout_token: await sign(word()) })
    const { now } = world.test.clock
    const count = async () => (await world.test.sql('SELECT 1 FROM logout_token')).length
    expect(await count()).toBeGreaterThan(1)
    world.test.clock.now = new Date(now.getTime() + 400_000)
    const later = { iat: seconds() + 400, exp: seconds() + 500 }
    expect((await send({ logout_token: await sign(word(later)) })).status).toBe(200)
    expect(await count()).toBe(1)
    world.test.clock.now = now
  })
})

describe('a provider whose keys cannot be had', () => {
  let fresh: Directory
  beforeEach(async () => {
    fresh = await world.addProvider()
    fresh.provider.people.set('subject', {})
    const own = browserAt(world.url)
    await own.signInByPassword('person')
    await own.link(fresh.id, 'subject')
    here = browserAt(world.url)
    expect(await here.signIn(fresh.id, 'subject')).toBe('/')
  })
  afterEach(() => vi.restoreAllMocks())

  const wordOf = ({ provider }: Directory) => provider.sign(word({ iss: provider.issuer }), { typ: 'logout+jwt' })

  /** It is asked to come again, and nothing ended. */
  async function expectPutOff(token: string) {
    const answer = await send({ logout_token: token }, fresh)
    expect([answer.status, answer.headers.get('retry-after')]).toEqual([503, expect.stringMatching(/^[1-9]\d*$/)])
    expect(await answer.json()).toMatchObject({ type: 'urn:reviewstand:problem:provider-silent' })
    expect(await isSignedIn()).toBe(true)
  }

  /** Sent again it ends the session, once. */
  async function expectTaken(token: string) {
    expect((await send({ logout_token: token }, fresh)).status).toBe(200)
    expect(await isSignedIn()).toBe(false)
    expect((await send({ logout_token: token }, fresh)).status).toBe(400)
  }

  it('is asked to send its word again while it is down, and the session ends then', async () => {
    const token = await wordOf(fresh)
    await fresh.provider.goDown()
    await expectPutOff(token)
    await expectPutOff(token)
    await fresh.provider.comeBack()
    await expectTaken(token)
  })

  it.each([
    ['an error', 500, '{}'],
    ['that there are none', 404, '{"keys":[]}'],
    ['nonsense', 200, '<p>Maintenance</p>'],
    ['no set of keys', 200, '{"keys":"none"}'],
    ['too much', 200, ' '.repeat(1_048_577)],
  ])('is asked to send its word again where it answers %s', async (_, status, body) => {
    const token = await wordOf(fresh)
    fresh.provider.insteadOfKeys = { status, body }
    await expectPutOff(token)
    fresh.provider.insteadOfKeys = null
    await expectTaken(token)
  })

  it('is asked to send again what a key signed that is newer than what was heard a moment ago', async () => {
    await expectTaken(await wordOf(fresh))
    await here.signIn(fresh.id, 'subject')
    await fresh.provider.rotateKeys()
    const token = await wordOf(fresh)
    await expectPutOff(token)
    inSeconds(6)
    await fresh.provider.goDown()
    await expectPutOff(token)
    await fresh.provider.comeBack()
    await expectTaken(token)
  })

  it('refuses a key that nobody has, once it was asked', async () => {
    await expectTaken(await wordOf(fresh))
    await here.signIn(fresh.id, 'subject')
    inSeconds(6)
    const token = await fresh.provider.sign(word({ iss: fresh.provider.issuer }), { typ: 'logout+jwt', kid: 'unknown' })
    expect((await send({ logout_token: token }, fresh)).status).toBe(400)
    expect(await isSignedIn()).toBe(true)
  })

  function inSeconds(seconds: number) {
    const now = Date.now
    vi.spyOn(Date, 'now').mockImplementation(() => now() + seconds * 1000)
  }
})
