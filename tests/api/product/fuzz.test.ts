import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createRandom } from '../../../seed/generate/random.ts'
import { insertAccount } from '../../../server/accounts/db/accounts.db.ts'
import { hashPassword } from '../../../server/accounts/services/password.ts'
import { Problem } from '../../../server/contract/errors.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { makeTestSetting, putSheet } from '../../support/factories.ts'
import { type Schema, type Source, valueFor } from '../../support/odd-values.ts'

const REQUESTS_EACH = 200
/** The same request says no more after so many times: an operation that takes nothing has no other. */
const SAME_AT_MOST = 5
const SEED = 20261125

interface Operation {
  readonly operationId: string
  readonly parameters?: readonly { name: string; in: 'path' | 'query' | 'header'; required?: boolean; schema: Schema }[]
  readonly requestBody?: { content: Record<string, { schema: Schema }> }
}

interface OpenApi {
  readonly paths: Record<string, Record<string, Operation>>
  readonly components: { readonly schemas: Record<string, Schema> }
}

let test: TestApp
let document: OpenApi
const known: { ids: string[]; codes: string[] } = { ids: [], codes: [] }
let sessions = 0
let passwordHash: string

beforeAll(async () => {
  test = await buildTestApp()
  passwordHash = await hashPassword(PASSWORD)
  document = await test.office.get<OpenApi>('/api/openapi.json')
  const setting = await makeTestSetting(test.office)
  const sheetId = randomUUID()
  await putSheet(test.office, setting.sheet(), sheetId)
  const standards = await test.office.get<{ items: { id: string }[] }>('/api/standards')
  const { unitId, candidateId, sponsorId, graderId, standard, certification } = setting
  known.ids.push(unitId, candidateId, sponsorId, graderId, sheetId, standards.items[0]!.id, randomUUID())
  known.codes.push(standard, certification, 'sword', 'SGT')
})

afterAll(() => test.close())

/** A cookie of somebody who may do everything; an operation may sign it out or disable its account. */
async function freshCookie(): Promise<string> {
  const name = `fuzz ${sessions++}`
  await forgetTries()
  await test.sql('DELETE FROM factor_rule') // Else nobody gets further than to a second factor.
  await insertAccount(test.db, {
    name,
    passwordHash,
    roles: ['office', 'administrator'],
    soldierId: null,
    unitId: null,
    createdAt: test.clock.now,
  })
  const answer = await test.app.inject({ method: 'POST', url: '/api/session', payload: { name, password: PASSWORD } })
  return String(answer.headers['set-cookie']).split(';')[0]!
}

/** Odd passwords and passkeys make everybody wait who comes from here. */
const forgetTries = () => test.sql('DELETE FROM password_tries')

/** Whether a cookie still stands for somebody: a wrong password is answered 401 too, and ends no session. */
const isSignedIn = async (cookie: string): Promise<boolean> =>
  (await test.app.inject({ method: 'GET', url: '/api/session', headers: { cookie } })).statusCode === 200

describe('odd requests to every operation of the OpenAPI document', () => {
  it('sees the operations', () => {
    expect(operations().length).toBeGreaterThan(50)
  })

  it('never fails, hangs or answers off the schema', async () => {
    const counts: Record<string, number> = {}
    for (const [method, path, operation] of operations()) {
      const random = createRandom(SEED)
      const source: Source = {
        below: (below) => random.integer(0, below - 1),
        schemas: document.components.schemas,
        ...known,
      }
      const asked = new Map<string, number>()
      let cookie = await freshCookie()
      for (let number = 0; number < REQUESTS_EACH; number += 1) {
        const request = requestFor(method, path, operation, source)
        const times = (asked.get(JSON.stringify(request)) ?? 0) + 1
        if (times > SAME_AT_MOST) continue
        asked.set(JSON.stringify(request), times)
        const answer = await test.app.inject({ ...request, headers: { ...request.headers, cookie } })
        const told = `${method} ${request.url} ${JSON.stringify(request.payload)?.slice(0, 500)} → ${answer.body.slice(0, 300)}`
        expect(answer.statusCode, told).toBeLessThan(500)
        if (answer.statusCode >= 400) {
          expect(answer.headers['content-type'], told).toContain('application/problem+json')
          expect(Problem.safeParse(answer.json()).success, told).toBe(true)
        }
        if (answer.statusCode === 401) {
          await forgetTries()
          if (!(await isSignedIn(cookie))) cookie = await freshCookie()
        }
        counts[`${Math.floor(answer.statusCode / 100)}xx`] =
          (counts[`${Math.floor(answer.statusCode / 100)}xx`] ?? 0) + 1
      }
    }
    expect(counts['2xx'], JSON.stringify(counts)).toBeGreaterThan(2000)
    expect(counts['4xx'], JSON.stringify(counts)).toBeGreaterThan(500)
  })
})

function operations(): [method: string, path: string, operation: Operation][] {
  return Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(
      ([method, operation]) => [method.toUpperCase(), path, operation] as [string, string, Operation],
    ),
  )
}

function requestFor(method: string, path: string, operation: Operation, source: Source) {
  const oddness = 2 + source.below(30)
  const text = (value: unknown) =>
    encodeURIComponent(wellFormed(typeof value === 'string' ? value : JSON.stringify(value)))
  let url = path
  const query: string[] = []
  const headers: Record<string, string> = {}
  for (const { name, in: place, required, schema } of operation.parameters ?? []) {
    const value = text(valueFor(schema, source, oddness))
    if (place === 'path') url = url.replace(`{${name}}`, value === '' ? '-' : value)
    else if (required || source.below(2) === 0) {
      if (place === 'query') query.push(`${name}=${value}`)
      else headers[name] = value
    }
  }
  const schema = operation.requestBody?.content['application/json']?.schema
  const payload = schema && valueFor(schema, source, oddness)
  return {
    method: method as 'GET',
    url: query.length > 0 ? `${url}?${query.join('&')}` : url,
    headers: { ...headers, ...(schema ? { 'content-type': 'application/json' } : {}) },
    ...(schema ? { payload: JSON.stringify(payload ?? null) } : {}),
  }
}

/** Half a surrogate pair cannot stand in an address. */
const wellFormed = (text: string): string => text.replace(/\p{Surrogate}/gu, '')
