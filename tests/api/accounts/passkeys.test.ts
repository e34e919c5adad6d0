import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type {
  FactorAsked,
  OwnFactors,
  PasskeyCreation,
  PasskeyRequest,
} from '../../../server/contract/accounts/factors.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { type Answer, type Client, createClient } from '../../support/client.ts'
import { createPasskey } from '../../support/passkey.ts'

const SITE = { origin: 'https://review.example.org', host: 'review.example.org' }
const ADD = '/api/account/factors/passkeys'

let test: TestApp
let made = 0
beforeAll(async () => {
  test = await buildTestApp({ address: SITE.origin })
})
afterAll(() => test.close())
beforeEach(() => {
  test.clock.now = new Date('2026-06-15T12:00:00Z')
})

const stranger = () => createClient(test.app.server)
const later = (milliseconds: number) => {
  test.clock.now = new Date(test.clock.now.getTime() + milliseconds)
}
const ruleOf = ({ body }: Answer) => (body as { type: string }).type.replace('urn:reviewstand:problem:', '')
const told = ({ status, body }: Answer) =>
  status === 200 ? '200' : `${status} ${ruleOf({ status, body, headers: {} })}`
const creation = (client: Client) => client.post<PasskeyCreation>(`${ADD}/creation`, undefined, 200)

/** Somebody with a passkey. */
async function somebody() {
  made += 1
  const name = `private-${made}`
  const client = await test.signedIn({ name })
  const passkey = createPasskey(SITE)
  await client.post(ADD, passkey.made(await creation(client)))
  return { name, client, passkey }
}

async function halfway(name: string): Promise<{ client: Client; asked: PasskeyRequest }> {
  const client = stranger()
  const first = await client.tries('POST', '/api/session', { name, password: PASSWORD })
  expect(first).toMatchObject({ status: 202, body: { passkey: true } as Partial<FactorAsked> })
  return { client, asked: await client.post('/api/session/factor/passkey-request', undefined, 200) }
}
const second = (client: Client, passkey: object) => client.tries('POST', '/api/session/factor', { passkey })
const askAlone = (client: Client) => client.post<PasskeyRequest>('/api/session/passkey-request', undefined, 200)
const alone = (client: Client, passkey: object) => client.tries('POST', '/api/session/passkey', { passkey })

describe('a passkey', () => {
  it('is added by its owner, listed by name, and comes with recovery codes', async () => {
    const client = await test.signedIn({ name: 'first' })
    const options = await creation(client)
    expect(options).toMatchObject({ rp: { id: SITE.host }, user: { name: 'first' }, excludeCredentials: [] })
    const { codes } = await client.post<{ codes: string[] }>(ADD, createPasskey(SITE).made(options, 'Key ring'))
    expect(codes).toHaveLength(10)
    const { passkeys } = await client.get<OwnFactors>('/api/account/factors')
    expect(passkeys).toMatchObject([{ name: 'Key ring', createdAt: '2026-06-15T12:00:00.000Z', lastUsedAt: null }])
    expect((await creation(client)).excludeCredentials).toHaveLength(1)
  })

  it('is the second step, and tells when it was last used', async () => {
    const { name, client, passkey } = await somebody()
    const { client: phone, asked } = await halfway(name)
    expect(asked.allowCredentials.map(({ id }) => id)).toEqual([passkey.id])
    expect(await second(phone, passkey.signed(asked, { verified: false }))).toMatchObject({
      status: 200,
      body: { name },
    })
    const { passkeys } = await client.get<OwnFactors>('/api/account/factors')
    expect(passkeys[0]!.lastUsedAt).toBe('2026-06-15T12:00:00.000Z')
  })

  it('signs in alone, where it has verified its owner', async () => {
    const { name, passkey } = await somebody()
    const client = stranger()
    const asked = await askAlone(client)
    expect(asked).toMatchObject({ userVerification: 'required', allowCredentials: [] })
    expect(await alone(client, passkey.signed(asked))).toMatchObject({ status: 200, body: { name } })
    await client.get('/api/units')
    const unverified = passkey.signed(await askAlone(client), { verified: false })
    expect(told(await alone(client, unverified))).toBe('401 wrong-passkey')
  })

  it('shows who one is', async () => {
    const { client, passkey } = await somebody()
    later(11 * 60_000)
    await client.refused(403, 'DELETE', '/api/account/factors/app')
    const asked = await client.post<PasskeyRequest>('/api/account/confirmation/passkey-request', undefined, 200)
    const proof = passkey.signed(asked)
    expect((await client.tries('POST', '/api/account/confirmation', { passkey: proof })).status).toBe(200)
    await client.refused(409, 'DELETE', '/api/account/factors/app')
    expect((await client.tries('POST', '/api/account/confirmation', { passkey: proof })).status).toBe(422)
  })

  it('is taken away by its owner alone', async () => {
    const { client, name } = await somebody()
    const other = await somebody()
    const [{ id } = { id: '' }] = (await client.get<OwnFactors>('/api/account/factors')).passkeys
    await other.client.refused(404, 'DELETE', `${ADD}/${id}`)
    expect((await client.tries('DELETE', `${ADD}/${id}`)).status).toBe(204)
    expect((await stranger().tries('POST', '/api/session', { name, password: PASSWORD })).status).toBe(200)
  })

  it('is added no more than ten times, once each, under a name of its own', async () => {
    const { client, passkey } = await somebody()
    await client.refused(409, 'POST', ADD, passkey.made(await creation(client), 'Again'))
    await client.refused(409, 'POST', ADD, createPasskey(SITE).made(await creation(client), 'Phone'))
    await client.refused(422, 'POST', ADD, createPasskey(SITE).made(await creation(client), ' '))
    for (let number = 2; number <= 10; number += 1) {
      await client.post(ADD, createPasskey(SITE).made(await creation(client), `Key ${number}`))
    }
    await client.refused(409, 'POST', `${ADD}/creation`)
  })
})

describe('a passkey is refused', () => {
  it('when the challenge is another, was used, is too old, or was made for something or somebody else', async () => {
    const { name, client, passkey } = await somebody()
    const { client: phone, asked } = await halfway(name)
    const elsewhere = await halfway(name)
    const wrong = '422 wrong-passkey'
    expect(told(await second(phone, passkey.signed(asked, { challenge: 'AAAA' })))).toBe(wrong)
    expect(told(await second(phone, passkey.signed(elsewhere.asked)))).toBe(wrong)
    expect(told(await second(phone, passkey.signed(await askAlone(phone))))).toBe(wrong)
    const confirms = await client.post<PasskeyRequest>('/api/account/confirmation/passkey-request', undefined, 200)
    expect(told(await second(phone, passkey.signed(confirms)))).toBe(wrong)
    expect(told(await alone(phone, passkey.signed(asked)))).toBe('401 wrong-passkey')
    expect(told(await second(phone, passkey.signed(asked)))).toBe('200')

    const third = await halfway(name)
    const proof = passkey.signed(third.asked)
    later(5 * 60_000)
    expect(told(await second(third.client, proof))).toBe('401 sign-in-again')
    const old = await askAlone(phone)
    later(5 * 60_000)
    expect(told(await alone(phone, passkey.signed(old)))).toBe('401 wrong-passkey')
  })

  it('when it signed for another place, or as another kind of thing', async () => {
    const { name, passkey } = await somebody()
    for (const lie of [
      { origin: 'https://review.example.org.evil.example' },
      { origin: 'http://review.example.org' },
      { host: 'evil.example' },
      { type: 'webauthn.create' },
    ]) {
      const { client, asked } = await halfway(name)
      expect(told(await second(client, passkey.signed(asked, lie))), JSON.stringify(lie)).toBe('422 wrong-passkey')
    }
    const client = await test.signedIn({ name: `adds for ${name}` })
    for (const lie of [{ origin: 'https://evil.example' }, { host: 'evil.example' }, { type: 'webauthn.get' }]) {
      await client.refused(422, 'POST', ADD, createPasskey(SITE).made(await creation(client), 'Phone', lie))
    }
    await client.refused(422, 'POST', ADD, createPasskey(SITE).made({ challenge: 'AAAA' }))
  })

  it('when it is another account’s, or its answer is another’s', async () => {
    const [mine, theirs] = [await somebody(), await somebody()]
    const { client, asked } = await halfway(theirs.name)
    expect(told(await second(client, mine.passkey.signed(asked)))).toBe('422 wrong-passkey')
    const again = await halfway(theirs.name)
    const forged = { ...mine.passkey.signed(again.asked), id: theirs.passkey.id }
    expect(told(await second(again.client, forged))).toBe('422 wrong-passkey')
    const unknown = createPasskey(SITE)
    const visitor = stranger()
    expect(told(await alone(visitor, unknown.signed(await askAlone(visitor))))).toBe('401 wrong-passkey')
  })

  it('when it counts backwards, as a copy of it would', async () => {
    const { name, passkey } = await somebody()
    const first = await halfway(name)
    expect(told(await second(first.client, passkey.signed(first.asked, { count: 7 })))).toBe('200')
    const copy = await halfway(name)
    expect(told(await second(copy.client, passkey.signed(copy.asked, { count: 7 })))).toBe('422 wrong-passkey')
  })

  it('when a challenge is added to another session than asked for it', async () => {
    const { name } = await somebody()
    const [one, two] = [await test.signedIn({ name: `a ${name}` }), await test.signedIn({ name: `b ${name}` })]
    await two.refused(422, 'POST', ADD, createPasskey(SITE).made(await creation(one)))
  })

  it('when its account is disabled', async () => {
    const { name, passkey } = await somebody()
    const client = stranger()
    const asked = await askAlone(client)
    await test.sql('UPDATE account SET disabled_at = now() WHERE name = $1', [name])
    expect(told(await alone(client, passkey.signed(asked)))).toBe('401 wrong-passkey')
  })

  it('with wrong ones counted, by address where no account is known', async () => {
    const { name, passkey } = await somebody()
    const { client } = await halfway(name)
    const nonsense = { id: passkey.id, clientDataJSON: 'AAAA', authenticatorData: 'AAAA', signature: 'AAAA' }
    for (let wrong = 0; wrong < 11; wrong += 1) expect(told(await second(client, nonsense))).toBe('422 wrong-passkey')
    expect(told(await second(client, nonsense))).toBe('429 too-many-wrong-codes')
    await test.sql('UPDATE password_tries SET level = 100, wait_until = NULL')
    expect(told(await alone(stranger(), nonsense))).toBe('401 wrong-passkey')
    expect(told(await alone(stranger(), nonsense))).toBe('429 too-many-wrong-codes')
    await test.sql('DELETE FROM password_tries')
  })
})

describe('a server that nobody opens by a name', () => {
  it('takes no passkeys, and says what would help', async () => {
    const other = await buildTestApp()
    const { passkeysWork } = await other.office.get<OwnFactors>('/api/account/factors')
    const problem = await other.office.refused(409, 'POST', `${ADD}/creation`)
    await other.close()
    expect(passkeysWork).toBe(false)
    expect(problem.detail).toMatch(/REVIEWSTAND_ADDRESS/)
  })
})
