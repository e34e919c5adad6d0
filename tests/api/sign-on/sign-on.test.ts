import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Account } from '../../../server/contract/accounts/accounts.ts'
import type { OwnIdentityList } from '../../../server/contract/sign-on/sign-on.ts'
import { PASSWORD } from '../../support/build-test-app.ts'
import { browserAt, buildSignOnWorld, type Directory, type SignOnWorld } from '../../support/sign-on/sign-on-world.ts'

let world: SignOnWorld
let directory: Directory
beforeAll(async () => {
  world = await buildSignOnWorld()
  directory = await world.addProvider({ name: 'Guard directory' })
})
afterAll(() => world?.close())

const browser = () => browserAt(world.url)
const refusal = (why: string) => `/sign-in?signOn=${why}&provider=${directory.id}`

/** Somebody with an account that is linked with the directory, signed in by their password. */
async function linked(name: string) {
  directory.provider.people.set(name, { preferred_username: name })
  await world.test.signedIn({ name })
  const own = browser()
  await own.signInByPassword(name)
  expect(await own.link(directory.id, name)).toBe('/account')
  return own
}

const accountNamed = async (name: string) =>
  (await world.warden.get<{ items: Account[] }>(`/api/accounts?q=${name}`)).items[0]!

const recordOf = (action: string) =>
  world.test.sql<{ account_name: string | null; after: unknown; text: string }>(
    'SELECT account_name, after, r::text AS text FROM record_entry r WHERE action = $1 ORDER BY seq',
    [action],
  )

describe('a linked account', () => {
  it('is signed in by its provider, at the page that was asked for', async () => {
    await linked('ada')
    const other = browser()
    expect(await other.signIn(directory.id, 'ada', '/retests?unitId=x')).toBe('/retests?unitId=x')
    expect(await other.session()).toMatchObject({ name: 'ada', roles: ['office'] })
    expect((await recordOf('session.opened')).at(-1)).toMatchObject({
      account_name: 'ada',
      after: { by: 'Guard directory' },
    })
    expect(await accountNamed('ada')).toMatchObject({ linkedWith: ['Guard directory'] })
  })

  it('keeps its roles, whatever the provider says', async () => {
    await directory.change({ rulesEachTime: true, makesAccounts: true })
    await linked('ben')
    const other = browser()
    expect(await other.signIn(directory.id, 'ben')).toBe('/')
    await directory.change({})
    expect(await other.session()).toMatchObject({ roles: ['office'] })
  })

  it('is signed in no more once an administrator closed it', async () => {
    await linked('cleo')
    const { id } = await accountNamed('cleo')
    await world.warden.put(`/api/accounts/${id}/disabled`, { disabled: true }, 200)
    const other = browser()
    expect(await other.signIn(directory.id, 'cleo')).toBe(refusal('account-closed'))
    expect(await other.session()).toBeNull()
    expect((await recordOf('session.refused')).at(-1)).toMatchObject({
      after: { by: 'Guard directory', why: 'account-closed' },
    })
  })

  it('leaves the session the browser had, and takes a new one', async () => {
    const own = await linked('dora')
    const sessions = async () =>
      (await world.test.sql('SELECT 1 FROM session s JOIN account a ON a.id = account_id WHERE name = $1', ['dora']))
        .length
    const before = await sessions()
    expect(await own.signIn(directory.id, 'dora')).toBe('/')
    expect(await sessions()).toBe(before)
    expect(await own.session()).toMatchObject({ name: 'dora' })
  })
})

describe('the cookie of the way there and back', () => {
  it('is short-lived, for our host alone, seen by no script, and sent when one comes back from another site', async () => {
    const begun = await browser().send('/api/sign-on/start', { providerId: directory.id, returnPath: '/' })
    expect(begun.headers.getSetCookie()).toHaveLength(1)
    expect(begun.headers.getSetCookie()[0]).toMatch(
      /^reviewstand_sign_on=[\w-]{43}; Max-Age=600; Path=\/; HttpOnly; SameSite=Lax$/,
    )
  })

  it('is taken back, and the session’s own is as it always was', async () => {
    await linked('edda')
    const other = browser()
    const back = await other.goThere(directory.id, 'edda')
    const answer = await other.ask(back.href)
    expect(answer.headers.getSetCookie().sort()).toEqual([
      expect.stringMatching(/^reviewstand_session=[\w-]{43}; Max-Age=604800; Path=\/; HttpOnly; SameSite=Strict$/),
      expect.stringMatching(/^reviewstand_sign_on=; Max-Age=0; Path=\/; HttpOnly; SameSite=Lax$/),
    ])
    expect(answer.headers.get('cache-control')).toBe('no-store')
  })
})

describe('linking', () => {
  it('asks for the present password again', async () => {
    const client = await world.test.signedIn({ name: 'finn' })
    const body = { providerId: directory.id, password: 'wrong' }
    const refused = await client.refused(422, 'POST', '/api/account/identities', body)
    expect(refused.errors).toMatchObject([{ pointer: '/password', rule: 'wrong-password' }])
  })

  it('goes by the subject and never by a name or a mail address', async () => {
    await world.test.signedIn({ name: 'gale' })
    directory.provider.people.set('somebody else', { preferred_username: 'gale', email: 'gale@example.org' })
    const other = browser()
    expect(await other.signIn(directory.id, 'somebody else')).toBe(refusal('no-account'))
    expect(await other.session()).toBeNull()
  })

  it('gives a subject to one account only', async () => {
    await linked('hugo')
    await world.test.signedIn({ name: 'thief' })
    const thief = browser()
    await thief.signInByPassword('thief')
    expect(await thief.link(directory.id, 'hugo')).toBe(`/account?signOn=linked-elsewhere&provider=${directory.id}`)
    const other = browser()
    await other.signIn(directory.id, 'hugo')
    expect(await other.session()).toMatchObject({ name: 'hugo' })
  })

  it('comes to nothing where the session has ended meanwhile', async () => {
    directory.provider.people.set('iris', {})
    await world.test.signedIn({ name: 'iris' })
    const own = browser()
    await own.signInByPassword('iris')
    const begun = await own.send('/api/account/identities', { providerId: directory.id, password: PASSWORD })
    const { address } = (await begun.json()) as { address: string }
    await world.test.sql('DELETE FROM session s USING account a WHERE a.id = s.account_id AND a.name = $1', ['iris'])
    const back = await own.follow(address, 'iris', (next) => next.pathname.startsWith('/api/sign-on/return/'))
    expect(await own.comeBack(back)).toBe(`/account?signOn=session-ended&provider=${directory.id}`)
    expect(await browser().signIn(directory.id, 'iris')).toBe(refusal('no-account'))
  })

  it('is on record, without the subject', async () => {
    directory.provider.people.set('subject-of-joan', {})
    await world.test.signedIn({ name: 'joan' })
    const own = browser()
    await own.signInByPassword('joan')
    await own.link(directory.id, 'subject-of-joan')
    const entry = (await recordOf('account.linked')).at(-1)!
    expect(entry).toMatchObject({ account_name: 'joan', after: { with: 'Guard directory' } })
    expect(entry.text).not.toContain('subject-of-joan')
  })
})

describe('unlinking', () => {
  const own = async (client: Awaited<ReturnType<typeof linked>>) =>
    (await (await client.ask(`${world.url}/api/account/identities`)).json()) as OwnIdentityList

  it('asks for the password, ends what was opened that way, and leaves the password as the way in', async () => {
    const client = await linked('kay')
    const other = browser()
    await other.signIn(directory.id, 'kay')
    const { items, hasPassword } = await own(client)
    expect(hasPassword).toBe(true)
    const { id } = items.find(({ providerId }) => providerId === directory.id)!
    const unlink = (password: string) => client.send(`/api/account/identities/${id}/unlink`, { password })
    expect((await unlink('wrong')).status).toBe(422)
    expect((await unlink(PASSWORD)).status).toBe(204)
    expect(await other.session()).toBeNull()
    expect(await client.session()).toMatchObject({ name: 'kay' })
    expect((await own(client)).items).toMatchObject([{ id: null, providerId: directory.id, linkedAt: null }])
    expect(await other.signIn(directory.id, 'kay')).toBe(refusal('no-account'))
    expect((await other.signInByPassword('kay')).status).toBe(200)
  })

  it('is one’s own affair', async () => {
    const client = await linked('lena')
    const { id } = (await own(client)).items[0]!
    await world.warden.refused(404, 'POST', `/api/account/identities/${id}/unlink`, { password: PASSWORD })
  })

  it('takes no account its only way in', async () => {
    const client = await linked('max')
    await world.test.sql("UPDATE account SET password_hash = NULL WHERE name = 'max'")
    const { items, hasPassword } = await own(client)
    expect(hasPassword).toBe(false)
    const answer = await client.send(`/api/account/identities/${items[0]!.id}/unlink`, { password: PASSWORD })
    expect(answer.status).toBe(409)
    expect(await answer.json()).toMatchObject({ type: 'urn:reviewstand:problem:no-password' })
  })
})

describe('afterwards one goes on to a page of ours and nowhere else', () => {
  it.each([
    'https://evil.example',
    '//evil.example',
    '/\\evil.example',
    '/\t/evil.example',
    '/.//evil.example',
    '/x/..//evil.example',
    'javascript:alert(1)',
    '\\\\evil.example',
    '/api/session',
    'evil',
    '',
  ])('%j', async (returnPath) => {
    directory.provider.people.set('nell', {})
    if (!(await accountNamed('nell'))) await linked('nell')
    expect(await browser().signIn(directory.id, 'nell', returnPath)).toBe('/')
  })
})

it('names the providers to whoever is not signed in, and nothing else of them', async () => {
  const { signOn } = await world.test.nobody.get<{ signOn: unknown }>('/api/health')
  expect(signOn).toEqual({ providers: [{ id: directory.id, name: 'Guard directory' }], foldsPasswords: false })
  expect(await world.test.nobody.get('/api/sign-on/answering')).toEqual({ ids: [directory.id] })
})

it('is refused at another address than the one people are sent back to', async () => {
  const { port } = new URL(world.url)
  const elsewhere = browserAt(`http://localhost:${port}`)
  const answer = await elsewhere.send('/api/sign-on/start', { providerId: directory.id, returnPath: '/' })
  expect(answer.status).toBe(409)
  expect(await answer.json()).toMatchObject({
    type: 'urn:reviewstand:problem:another-address',
    detail: expect.stringContaining(world.url),
  })
})
