import { generateKeyPair, type JWTPayload, SignJWT } from 'jose'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { browserAt, buildSignOnWorld, type Directory, type SignOnWorld } from '../../support/sign-on/sign-on-world.ts'

let world: SignOnWorld
let good: Directory
let other: Directory
beforeAll(async () => {
  world = await buildSignOnWorld()
  good = await world.addProvider({ name: 'Good' })
  other = await world.addProvider({ name: 'Other' })
  for (const { provider } of [good, other]) provider.people.set('victim', {})
  await world.test.signedIn({ name: 'victim' })
  const own = browserAt(world.url)
  await own.signInByPassword('victim')
  expect(await own.link(good.id, 'victim')).toBe('/account')
})
afterAll(() => world?.close())

const browser = () => browserAt(world.url)
const refusal = (why: string, { id } = good) => `/sign-in?signOn=${why}&provider=${id}`
const BEGIN_AGAIN = '/sign-in?signOn=begin-again'

async function refused(client: ReturnType<typeof browser>, address: URL, to: string) {
  expect(await client.comeBack(address)).toBe(to)
  expect(await client.session()).toBeNull()
}

describe('a way back serves once', () => {
  it('is refused when it is gone again', async () => {
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    expect(await client.comeBack(back)).toBe('/')
    await client.send('/api/sign-on/leave', {})
    await refused(client, back, BEGIN_AGAIN)
  })

  it('is refused with the cookie put back', async () => {
    const client = browser()
    const begun = await client.send('/api/sign-on/start', { providerId: good.id, returnPath: '/' })
    const cookie = begun.headers.getSetCookie()[0]!.split(';')[0]!
    const { address } = (await begun.json()) as { address: string }
    const back = await client.follow(address, 'victim', (next) => next.pathname.startsWith('/api/sign-on/return/'))
    const again = () => fetch(back, { headers: { cookie }, redirect: 'manual' })
    expect((await again()).headers.get('location')).toBe('/')
    const second = await again()
    expect(second.headers.get('location')).toBe(BEGIN_AGAIN)
    expect(second.headers.getSetCookie().join()).not.toContain('reviewstand_session')
  })

  it('takes no code that was used, under another state', async () => {
    const first = browser()
    const used = await first.goThere(good.id, 'victim')
    await first.comeBack(used)
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    back.searchParams.set('code', used.searchParams.get('code')!)
    await refused(client, back, refusal('begin-again'))
  })

  it('takes no code that another browser was given', async () => {
    const stolen = await browser().goThere(good.id, 'victim')
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    back.searchParams.set('code', stolen.searchParams.get('code')!)
    await refused(client, back, refusal('begin-again'))
  })

  it('is nothing in a browser that never left', async () => {
    const back = await browser().goThere(good.id, 'victim')
    await refused(browser(), back, BEGIN_AGAIN)
  })

  it('is nothing with another state', async () => {
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    back.searchParams.set('state', 'another')
    await refused(client, back, refusal('provider-wrong'))
  })

  it('ends after ten minutes', async () => {
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    const { now } = world.test.clock
    world.test.clock.now = new Date(now.getTime() + 600_000)
    await refused(client, back, BEGIN_AGAIN)
    world.test.clock.now = now
  })
})

describe('two providers are never taken for one another', () => {
  it('by the address one comes back to', async () => {
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    back.pathname = back.pathname.replace(good.id, other.id)
    await refused(client, back, refusal('other-provider', other))
  })

  it.each(['another’s', 'none', 'both'])('by the issuer in the answer: %s', async (which) => {
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    if (which === 'another’s') back.searchParams.set('iss', other.provider.issuer)
    if (which === 'none') back.searchParams.delete('iss')
    if (which === 'both') back.searchParams.append('iss', other.provider.issuer)
    await refused(client, back, refusal('other-provider'))
  })

  it('by their subjects: the same one elsewhere is somebody else', async () => {
    const client = browser()
    expect(await client.signIn(other.id, 'victim')).toBe(refusal('no-account', other))
    expect(await client.session()).toBeNull()
  })
})

describe('a token that is not right signs nobody in', () => {
  const now = () => Math.floor(Date.now() / 1000)
  it.each<[string, string, (payload: JWTPayload) => JWTPayload, Record<string, unknown>?]>([
    ['for another client', 'provider-wrong', (payload) => ({ ...payload, aud: 'another client' })],
    [
      'for us and another, by another',
      'provider-wrong',
      (payload) => ({ ...payload, aud: ['reviewstand', 'x'], azp: 'x' }),
    ],
    ['of another issuer', 'provider-wrong', (payload) => ({ ...payload, iss: other.provider.issuer })],
    ['with another nonce', 'provider-wrong', (payload) => ({ ...payload, nonce: 'another' })],
    ['without a nonce', 'provider-wrong', ({ nonce: _, ...payload }) => payload],
    ['without a subject', 'provider-wrong', ({ sub: _, ...payload }) => payload],
    ['expired', 'clock-off', (payload) => ({ ...payload, iat: now() - 900, exp: now() - 120 })],
    ['of yesterday', 'clock-off', (payload) => ({ ...payload, iat: now() - 86_400, exp: now() + 600 })],
    ['of tomorrow', 'clock-off', (payload) => ({ ...payload, iat: now() + 86_400, exp: now() + 90_000 })],
    ['not to be used yet', 'clock-off', (payload) => ({ ...payload, nbf: now() + 600 })],
    ['of an unknown key', 'provider-wrong', (payload) => payload, { kid: 'unknown' }],
  ])('%s', async (_, why, twist, header = {}) => {
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    good.provider.twist = (payload, own) => [twist(payload), { ...own, ...header }]
    await refused(client, back, refusal(why))
    good.provider.twist = null
  })

  it('signed by somebody else, with a key of the same name', async () => {
    const { privateKey } = await generateKeyPair('RS256')
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    good.provider.forge = (payload, header) =>
      new SignJWT(payload).setProtectedHeader({ ...header, alg: 'RS256' }).sign(privateKey)
    await refused(client, back, refusal('provider-wrong'))
    good.provider.forge = null
  })

  it.each(['none', 'HS256'])('signed by nobody but us: %s', async (alg) => {
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    const part = (value: unknown) => Buffer.from(JSON.stringify(value)).toString('base64url')
    good.provider.forge = async (payload) =>
      alg === 'none'
        ? `${part({ alg })}.${part(payload)}.`
        : new SignJWT(payload).setProtectedHeader({ alg }).sign(Buffer.from('a secret of the test'))
    await refused(client, back, refusal('provider-wrong'))
    good.provider.forge = null
  })

  it.each([3600, -3600])('where the clocks are %i seconds apart, and the answer says so', async (seconds) => {
    const client = browser()
    const back = await client.goThere(good.id, 'victim')
    const { now: was } = world.test.clock
    world.test.clock.now = new Date(was.getTime() + seconds * 1000)
    // What it left with is by our clock, and is not what this is about.
    await world.test.sql("UPDATE sign_on_attempt SET expires_at = expires_at + interval '2 hours'")
    await refused(client, back, refusal('clock-off'))
    world.test.clock.now = was
  })
})

it('takes a new key at once when the provider changes its keys', async () => {
  await good.provider.rotateKeys()
  const client = browser()
  expect(await client.signIn(good.id, 'victim')).toBe('/')
  expect(await client.session()).toMatchObject({ name: 'victim' })
})

it('signs in nobody who is gone from the directory', async () => {
  good.provider.people.set('leaver', {})
  await world.test.signedIn({ name: 'leaver' })
  const client = browser()
  await client.signInByPassword('leaver')
  await client.link(good.id, 'leaver')
  await client.send('/api/sign-on/leave', {})
  expect(await client.signIn(good.id, 'leaver')).toBe('/')
  good.provider.people.delete('leaver')
  await client.send('/api/sign-on/leave', {})
  expect(await client.signIn(good.id, 'leaver')).toBe(refusal('provider-refused'))
  expect(await client.session()).toBeNull()
})

describe('a provider that is down', () => {
  it('is named, and stops no session and no password', async () => {
    const going = browser()
    await going.signIn(other.id, 'victim')
    const signedIn = browser()
    expect(await signedIn.signIn(good.id, 'victim')).toBe('/')
    const onTheWay = browser()
    const back = await onTheWay.goThere(good.id, 'victim')
    await good.provider.goDown()
    const answer = await browser().send('/api/sign-on/start', { providerId: good.id, returnPath: '/' })
    expect(answer.status).toBe(503)
    expect(await answer.json()).toMatchObject({ detail: expect.stringMatching(/^Good does not answer just now/) })
    expect(await world.test.nobody.get('/api/sign-on/answering')).toEqual({ ids: [other.id] })
    expect(await signedIn.session()).toMatchObject({ name: 'victim' })
    expect((await browser().signInByPassword('victim')).status).toBe(200)
    await refused(onTheWay, back, refusal('provider-silent'))
    // Our own session ends, whatever becomes of theirs.
    expect(await (await signedIn.send('/api/sign-on/leave', {})).json()).toEqual({ address: null })
    expect(await signedIn.session()).toBeNull()
    await good.provider.comeBack()
    expect(await browser().signIn(good.id, 'victim')).toBe('/')
  })
})

it('says that its client is refused where the secret is wrong', async () => {
  await good.change({ clientSecret: 'wrong' })
  const client = browser()
  await refused(client, await client.goThere(good.id, 'victim'), refusal('client-refused'))
  await good.change({})
})

it('lets nobody in by a provider that is switched off', async () => {
  const client = browser()
  const back = await client.goThere(good.id, 'victim')
  await good.change({ enabled: false })
  await refused(client, back, refusal('switched-off'))
  const answer = await client.send('/api/sign-on/start', { providerId: good.id, returnPath: '/' })
  expect(answer.status).toBe(404)
  expect((await world.test.nobody.get<{ signOn: { providers: unknown[] } }>('/api/health')).signOn.providers).toEqual([
    { id: other.id, name: 'Other' },
  ])
  await good.change({})
})

it('writes no token, code or secret into the record', async () => {
  const rows = await world.test.sql<{ text: string }>('SELECT r::text AS text FROM record_entry r')
  const text = rows.map((row) => row.text).join('\n')
  expect(text).toContain('session.refused')
  expect(text).not.toMatch(/eyJ|a secret of the test|code=/)
})
