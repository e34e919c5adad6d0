import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeTwoPlatoons, ROLES, type TwoPlatoons } from '../../support/two-platoons.ts'

interface Parameter {
  readonly name: string
  readonly in: 'path' | 'query' | 'header'
  readonly required?: boolean
  readonly schema: { readonly enum?: readonly string[] }
}

interface Operation {
  readonly path: string
  readonly parameters: readonly Parameter[]
}

/** Never ends, and answers as the line itself does. */
const STREAM = '/api/test-days/{id}/line/changes'

let test: TestApp
let world: TwoPlatoons
let operations: Operation[]

beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  world = await makeTwoPlatoons(test)
  const { paths } = await test.office.get<{ paths: Record<string, { get?: { parameters?: Parameter[] } }> }>(
    '/api/openapi.json',
  )
  operations = Object.entries(paths)
    .filter(([path, { get }]) => get && path !== STREAM && path !== '/api/openapi.json')
    .map(([path, { get }]) => ({ path, parameters: get!.parameters ?? [] }))
})
afterAll(() => test.close())

/** Everything that names somebody of platoon B. */
function secrets(): Map<string, string> {
  const { b } = world
  return new Map([
    ...Object.entries(b.people).map(([name, id]) => [id, name] as const),
    ...b.ids.map((id) => [id, 'id'] as const),
    ...b.rosterNumbers.map((number) => [number, 'roster number'] as const),
    [b.familyName, 'name'],
  ])
}

function valuesOf({ name, schema }: Parameter): readonly string[] {
  const { a, b, shared, standard, certification } = world
  if (schema.enum) return schema.enum
  const people = [a.people.candidate, b.people.candidate, b.people.late, b.people.guide]
  const days = ['2025-06-15', '2026-06-15', '2026-09-01']
  const values: Record<string, readonly string[]> = {
    unitId: [shared.unit, a.unitId, b.unitId],
    soldierId: people,
    candidateId: people,
    subjectId: people,
    testDayId: [shared.testDay, ...b.ids],
    standard: [standard],
    certification: [certification],
    measure: ['draw'],
    arm: ['sword'],
    grade: ['SGT'],
    q: [b.familyName, b.familyName.slice(0, 3), b.rosterNumbers[0]!, 'candidate', 'late', 'Hall', 'Guard', 'a'],
    limit: ['500'],
    months: ['12'],
    days: ['90'],
    with: [randomUUID()],
  }
  return values[name] ?? (['after', 'account', 'action'].includes(name) ? [] : days)
}

/** An address with nothing but what it must have, then with every other parameter at every value, alone and with a unit. */
function* queriesOf({ parameters }: Operation): Generator<string> {
  const query = parameters.filter((one) => one.in === 'query')
  const must = query.filter(({ required }) => required)
  const words = (given: readonly (readonly [string, string])[]) =>
    given.map(([name, value]) => `${name}=${encodeURIComponent(value)}`).join('&')
  const base = must.map((one) => [one.name, valuesOf(one)[0]!] as const)
  yield words(base)
  for (const one of query) {
    for (const value of valuesOf(one)) {
      yield words([...base.filter(([name]) => name !== one.name), [one.name, value]])
      if (one.name === 'unitId' || !query.some(({ name }) => name === 'unitId')) continue
      yield words([...base, ['unitId', world.shared.unit], [one.name, value]])
    }
  }
}

function* addressesOf(operation: Operation): Generator<string> {
  const { a, b, shared } = world
  const named = (name: string) => operation.parameters.find((one) => one.name === name)
  const ids = [...Object.values(a.people), ...Object.values(b.people), ...a.ids, ...b.ids, ...Object.values(shared)]
  const kinds = named('kind')?.schema.enum ?? ['']
  for (const id of operation.path.includes('{id}') ? ids : ['']) {
    for (const kind of kinds) {
      yield operation.path.replace('{id}', id).replace('{kind}', kind).replace('{postId}', shared.post)
    }
  }
}

/** Asks everything; answers where something of platoon B was told. */
async function told(client: Client, queries: (operation: Operation) => Iterable<string>) {
  const hidden = [...secrets()]
  const found: { path: string; address: string; what: string[] }[] = []
  for (const operation of operations) {
    for (const place of addressesOf(operation)) {
      for (const query of queries(operation)) {
        const address = query ? `${place}?${query}` : place
        const { status, body } = await client.tries('GET', address)
        expect(status, address).toBeLessThan(500)
        const text = typeof body === 'string' ? body : JSON.stringify(withoutSharedSlots(body))
        const what = hidden.filter(([secret]) => text.includes(secret)).map(([, word]) => word)
        if (what.length > 0) found.push({ path: operation.path, address, what: [...new Set(what)] })
        if (operation.path.includes('{id}') && status !== 200) break
      }
    }
  }
  return found
}

/**
 * Justified: the plan of a test day of the battalion says to all who take part in it which slots there are and who grades
 * in them. Whom they test it does not say.
 */
const withoutSharedSlots = (body: unknown): unknown =>
  JSON.parse(JSON.stringify(body), (_key, value) => {
    if (value?.testDayId !== world.shared.testDay || !('taken' in value)) return value
    const { id: _id, graderId: _graderId, graderName: _graderName, ...rest } = value
    return rest
  })

describe('what an account of one platoon is told of the other', () => {
  it('sees the operations', () => {
    expect(operations.length).toBeGreaterThan(50)
  })

  it.each(ROLES)('%s', async (role) => {
    expect((await told(world.clients[role], queriesOf)).map(({ address, what }) => `${address}: ${what}`)).toEqual([])
  })

  it('although the same questions tell the office everything', async () => {
    const found = await told(test.office, (operation) => [...queriesOf(operation)].slice(0, 2))
    const paths = new Set(found.map(({ path }) => path))
    expect(paths.size, [...paths].join(' ')).toBeGreaterThan(25)
    const seen = new Set(found.flatMap(({ what }) => what))
    expect([...secrets().values()].filter((what) => !seen.has(what))).toEqual([])
  })

  it('nothing by the calendar', async () => {
    for (const role of ROLES) {
      const { token } = await world.clients[role].post<{ token: string }>('/api/account/calendar')
      const { status, body } = await test.nobody.tries('GET', `/calendar/${token}.ics`)
      expect(status).toBe(200)
      // Ids of the grader's own duties, cancelled ones too, name nobody.
      const hidden = [...secrets()].filter(([, what]) => what !== 'id')
      expect(
        hidden.filter(([secret]) => String(body).includes(secret)),
        role,
      ).toEqual([])
    }
  })
})
