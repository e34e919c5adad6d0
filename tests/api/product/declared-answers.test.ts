import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Method } from '../../support/client.ts'

type Operations = Record<string, { responses: Record<string, unknown> }>

let test: TestApp
let operations: { method: Method; address: string; declared: string[] }[]
beforeAll(async () => {
  test = await buildTestApp()
  const { paths } = await test.office.get<{ paths: Record<string, Operations> }>('/api/openapi.json')
  operations = Object.entries(paths).flatMap(([address, path]) =>
    Object.entries(path).map(([method, { responses }]) => ({
      method: method.toUpperCase() as Method,
      address,
      declared: Object.keys(responses),
    })),
  )
})
afterAll(() => test.close())

const withParameters = () => operations.filter(({ address }) => address.includes('{'))

describe('what an operation answers for a parameter that names nothing', () => {
  it.each([
    ['unknown', randomUUID()],
    ['no id at all', 'none'],
    ['longer than any is', 'x'.repeat(600)],
  ])('is declared: %s', async (_what, value) => {
    expect(withParameters().length).toBeGreaterThan(30)
    const statuses = new Set<string>()
    for (const { method, address, declared } of withParameters()) {
      const body = ['GET', 'DELETE'].includes(method) ? undefined : {}
      const { status } = await test.office.tries(method, address.replaceAll(/\{[^}]+\}/g, value), body)
      statuses.add(String(status))
      expect(declared, `${method} ${address}: ${status}`).toContain(String(status))
    }
    expect([...statuses]).toContain(value.length > 500 ? '414' : value === 'none' ? '400' : '404')
  })
})
