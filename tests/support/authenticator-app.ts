import { Secret, TOTP } from 'otpauth'
import type { NewApp } from '../../server/contract/accounts/factors.ts'
import type { TestApp } from './build-test-app.ts'
import type { Client } from './client.ts'

/** An authenticator app on somebody's phone, whose clock is the server's. */
export interface App {
  /** The code of now, or of so many steps later. */
  code(stepsLater?: number): string
  readonly recoveryCodes: string[]
}

export const codeOf = (key: string, at: Date): string =>
  new TOTP({ secret: Secret.fromBase32(key) }).generate({ timestamp: at.getTime() })

/** Sets up an authenticator app for whoever is signed in. Its first code is used by that. */
export async function setUpApp(test: TestApp, client: Client): Promise<App> {
  const { key } = await client.post<NewApp>('/api/account/factors/app')
  const code = (stepsLater = 0) => codeOf(key, new Date(test.clock.now.getTime() + stepsLater * 30_000))
  const { codes } = await client.put<{ codes: string[] | null }>('/api/account/factors/app', { code: code() }, 200)
  return { code, recoveryCodes: codes ?? [] }
}
