import type { TestApp } from './build-test-app.ts'
import type { Client } from './client.ts'

const known = new WeakMap<TestApp, Promise<Client>>()

/** Another person of the training office: who decides about what the office entered, amended or proposed. */
export function secondPerson(test: TestApp): Promise<Client> {
  const client = known.get(test) ?? test.signedIn({ name: 'second person' })
  known.set(test, client)
  return client
}
