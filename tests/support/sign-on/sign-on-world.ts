import { randomUUID } from 'node:crypto'
import { expect } from 'vitest'
import type { ProviderBody } from '../../../server/contract/sign-on/providers.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../build-test-app.ts'
import type { Client } from '../client.ts'
import { openProvider, type TestProvider } from './open-provider.ts'
import { createWanderer } from './wanderer.ts'

/** A server and the providers it knows. */
export interface SignOnWorld {
  readonly test: TestApp
  readonly url: string
  readonly warden: Client
  /** Adds a directory, and makes each know the other. */
  addProvider(body?: Partial<ProviderBody>): Promise<Directory>
  close(): Promise<void>
}

export interface Directory {
  readonly id: string
  readonly provider: TestProvider
  readonly body: ProviderBody
  /** Changes what the server knows of it. */
  change(more: Partial<ProviderBody>): Promise<void>
}

/** By the clock of the machine, by which a provider goes, too: it goes on, however slow the machine is, and a test may set it. */
export async function buildSignOnWorld(): Promise<SignOnWorld> {
  const test = await buildTestApp({ now: new Date().toISOString(), loopbackProviders: true })
  let ahead = 0
  Object.defineProperty(test.clock, 'now', {
    get: () => new Date(Date.now() + ahead),
    set: (now: Date) => {
      ahead = now.getTime() - Date.now()
    },
  })
  const warden = await test.signedIn({ name: 'warden', roles: ['administrator'] })
  const url = test.app.listeningOrigin
  const providers: TestProvider[] = []
  return {
    test,
    url,
    warden,
    async addProvider(more = {}) {
      const id = randomUUID()
      const provider = await openProvider()
      providers.push(provider)
      const body: ProviderBody = {
        name: `Directory ${providers.length}`,
        issuer: provider.issuer,
        clientId: 'reviewstand',
        clientSecret: 'a secret of the test',
        scopes: 'openid profile',
        enabled: true,
        makesAccounts: false,
        rulesEachTime: false,
        makesAdministrators: false,
        nameClaim: 'preferred_username',
        soldierClaim: null,
        rules: [],
        ...more,
      }
      provider.register({
        id: body.clientId,
        secret: 'a secret of the test',
        returnAddress: `${url}/api/sign-on/return/${id}`,
        signedOutAddress: `${url}/sign-in`,
        logoutAddress: `${url}/api/sign-on/logout/${id}`,
      })
      await warden.put(`/api/sign-on-providers/${id}`, body, 200)
      return {
        id,
        provider,
        body,
        async change(change) {
          await warden.put(`/api/sign-on-providers/${id}`, { ...body, ...change }, 200)
        },
      }
    },
    async close() {
      for (const provider of providers) await provider.close()
      await test.close()
    },
  }
}

const json = (origin: string) => ({ 'content-type': 'application/json', origin })

/** A browser of somebody, at a server. */
export function browserAt(url: string) {
  const wanderer = createWanderer()
  const send = (path: string, body: unknown) =>
    wanderer.ask(url + path, { method: 'POST', headers: json(url), body: JSON.stringify(body) })

  /** Begins, and goes as far as the way back. Out: the address the provider sends it back to, not yet asked. */
  async function goThere(providerId: string, who: string, returnPath = '/'): Promise<URL> {
    const begun = await send('/api/sign-on/start', { providerId, returnPath })
    expect(begun.status, await begun.clone().text()).toBe(200)
    const { address } = (await begun.json()) as { address: string }
    return wanderer.follow(address, who, (next) => next.pathname.startsWith('/api/sign-on/return/'))
  }

  /** Comes back. Out: the page it is sent on to. */
  async function comeBack(address: URL): Promise<string> {
    const answer = await wanderer.ask(address.href)
    expect(answer.status, await answer.clone().text()).toBe(302)
    return answer.headers.get('location')!
  }

  return {
    ...wanderer,
    send,
    goThere,
    comeBack,
    signIn: async (providerId: string, who: string, returnPath?: string) =>
      comeBack(await goThere(providerId, who, returnPath)),
    signInByPassword: (name: string) => send('/api/session', { name, password: PASSWORD }),
    /** Who is signed in; null for nobody. */
    async session(): Promise<{ accountId: string; name: string; roles: string[]; unitId: string | null } | null> {
      const answer = await wanderer.ask(`${url}/api/session`)
      return answer.status === 200 ? ((await answer.json()) as never) : null
    },
    /** Links the account that is signed in. Out: the page it is sent on to. */
    async link(providerId: string, who: string): Promise<string> {
      const begun = await send('/api/account/identities', { providerId, password: PASSWORD })
      expect(begun.status, await begun.clone().text()).toBe(200)
      const { address } = (await begun.json()) as { address: string }
      return comeBack(await wanderer.follow(address, who, (next) => next.pathname.startsWith('/api/sign-on/return/')))
    },
  }
}
