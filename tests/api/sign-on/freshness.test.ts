import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { browserAt, buildSignOnWorld, type Directory, type SignOnWorld } from '../../support/sign-on/sign-on-world.ts'

let world: SignOnWorld
let directory: Directory
beforeAll(async () => {
  world = await buildSignOnWorld()
  const chief = { claim: 'groups', test: 'contains', value: 'chiefs', role: 'administrator', unitId: null } as const
  const makes = { makesAccounts: true, makesAdministrators: true, rules: [chief] }
  directory = await world.addProvider({ name: 'Directory', ...makes })
  directory.provider.people.set('chief', { preferred_username: 'chief', groups: ['chiefs'] })
})
afterAll(() => world?.close())

const HOUR_SECONDS = 3600
type Browser = ReturnType<typeof browserAt>

/** Does what is asked for once more who one is. Out: the status. */
const doesWhatCannotBeUndone = async (browser: Browser): Promise<number> =>
  (
    await browser.send('/api/accounts', {
      name: `somebody ${randomUUID()}`,
      roles: ['office'],
      soldierId: null,
      unitId: null,
    })
  ).status

describe('who one is, a provider shows by asking and not by remembering', () => {
  it('where somebody signed in there just now', async () => {
    const browser = browserAt(world.url)
    await browser.signIn(directory.id, 'chief')
    expect(await doesWhatCannotBeUndone(browser)).toBe(201)
  })

  it('not where they signed in there long ago', async () => {
    directory.provider.twist = (payload, header) => [{ ...payload, auth_time: payload.iat! - HOUR_SECONDS }, header]
    const browser = browserAt(world.url)
    expect(await browser.signIn(directory.id, 'chief')).toBe('/')
    expect(await doesWhatCannotBeUndone(browser)).toBe(403)
    directory.provider.twist = null
  })

  it('not where it does not say when they did, or says nonsense', async () => {
    for (const said of [undefined, null, 'now', true, -1, Number.MAX_SAFE_INTEGER, {}]) {
      directory.provider.twist = ({ auth_time: _, ...payload }, header) => [
        { ...payload, ...(said === undefined ? {} : { auth_time: said }) },
        header,
      ]
      const browser = browserAt(world.url)
      await browser.signIn(directory.id, 'chief')
      expect(await doesWhatCannotBeUndone(browser), String(said)).not.toBe(201)
    }
    directory.provider.twist = null
  })

  it('and is asked to, when somebody wants to show it anew', async () => {
    const browser = browserAt(world.url)
    await browser.signIn(directory.id, 'chief')
    const begin = async (more: object) => {
      const answer = await browser.send('/api/sign-on/start', { providerId: directory.id, returnPath: '/', ...more })
      return ((await answer.json()) as { address: string }).address
    }
    const isBack = ({ pathname }: URL) => pathname.startsWith('/api/sign-on/return/')
    // It remembers them, so it asks nothing: there is nobody of this name.
    await browser.comeBack(await browser.follow(await begin({}), 'nobody', isBack))
    expect(await browser.session()).toMatchObject({ name: 'chief' })
    const refused = await browser.comeBack(await browser.follow(await begin({ anew: true }), 'nobody', isBack))
    expect(refused).toBe(`/sign-in?signOn=provider-refused&provider=${directory.id}`)
    await browser.comeBack(await browser.follow(await begin({ anew: true }), 'chief', isBack))
    expect(await doesWhatCannotBeUndone(browser)).toBe(201)
  })
})
