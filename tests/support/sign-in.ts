import type { APIRequestContext } from 'playwright-core'
import { PASSWORD } from './build-test-app.ts'

/** Signs a browser's session in by request, as the sign-in page would. In: its page or context, where the product is, whom. */
export async function signIn(session: { request: APIRequestContext }, origin: string, name: string): Promise<void> {
  const answer = await session.request.post(`${origin}/api/session`, {
    data: { name, password: PASSWORD },
    headers: { origin },
  })
  if (!answer.ok()) throw new Error(`Signing in failed: ${answer.status()} ${await answer.text()}`)
}
