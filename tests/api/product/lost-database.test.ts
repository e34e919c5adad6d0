import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { closeDatabase, openDatabase } from '../../../server/db/client.ts'
import { isUnreachable } from '../../../server/db/database-errors.ts'
import { openSignals } from '../../../server/process/start/open-signals.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import type { Answer, Method } from '../../support/client.ts'
import { createOwnDatabase, type OwnDatabase } from '../../support/own-database.ts'
import { routesOf } from '../../support/routes-of.ts'

/** What needs no database, or says no before it would ask one. */
const WITHOUT = [
  ...['GET /api/openapi.json', 'GET /api/health/alive'],
  ...['POST /api/session/factor', 'POST /api/session/factor/passkey-request'],
  ...['POST /api/session/passkey', 'POST /api/session/passkey-request'],
  ...['POST /api/sign-on/start', 'GET /api/sign-on/return/:id', 'POST /api/sign-on/logout/:id'],
]
/** What is open looks at the body before it looks at the database. */
const BODIES: Record<string, unknown> = {
  'POST /api/session': { name: 'office', password: PASSWORD },
  'POST /api/setup': { token: 'x'.repeat(43), name: 'first', password: 'a few words make a good one' },
  'POST /api/certificates/verify': {
    certificate: `${Buffer.from(JSON.stringify({ alg: 'EdDSA', kid: 'x'.repeat(43) })).toString('base64url')}.e30.eA`,
  },
  'POST /api/welcome': { token: 'x'.repeat(43), password: 'a few words make a good one' },
  'POST /api/welcome/look': { token: 'x'.repeat(43) },
}

let own: OwnDatabase
let test: TestApp
beforeAll(async () => {
  own = await createOwnDatabase()
  test = await buildTestApp({ own: { url: own.url, close: async () => {} } })
})
afterAll(async () => {
  test.takeUnexpected() // That the database was lost is logged.
  await test.close()
  await own.close()
})

const routes = () => routesOf(test.app).filter(({ method, path }) => !WITHOUT.includes(`${method} ${path}`))

function expectUnavailable(what: string, { status, headers, body }: Answer): void {
  expect(status, `${what}: ${JSON.stringify(body)}`).toBe(503)
  expect(headers['content-type'], what).toMatch(/^application\/problem\+json\b/)
  expect(headers['retry-after'], what).toMatch(/^[1-9]\d*$/)
  expect(body, what).toMatchObject({ type: 'urn:reviewstand:problem:database-unavailable', status: 503 })
}

async function everyRouteSaysSo(): Promise<void> {
  expect(routes().length).toBeGreaterThan(100)
  const otherwise: unknown[] = []
  for (const { method, path } of routes()) {
    const what = `${method} ${path}`
    const answer = await test.office.tries(method, path.replace(/:\w+/g, randomUUID()), BODIES[what])
    if (answer.status === 503) expectUnavailable(what, answer)
    else otherwise.push([what, answer.status, answer.body])
  }
  expect(otherwise).toEqual([])
}

/** It comes back by itself, without the server having been started again. */
async function recovers(): Promise<void> {
  for (let status = 0; status !== 200; ) {
    const answer = await test.office.tries('GET', '/api/units')
    status = answer.status
    if (status !== 200) expectUnavailable('GET /api/units', answer)
  }
  expect(await test.nobody.get('/api/health')).toMatchObject({ status: 'ok' })
}

/** Many at once, reading and writing, while something happens to the database. None may fail otherwise than as unavailable. */
async function underLoad(happens: () => Promise<void> | void): Promise<number> {
  let isOver = false
  let lost = 0
  const ask = async (number: number) => {
    for (let round = 0; !isOver; round += 1) {
      const reads = (number + round) % 2 === 0
      const asked: [Method, string, unknown?] = reads
        ? ['GET', '/api/readiness']
        : [
            'POST',
            '/api/units',
            { name: `Unit ${number}.${round} ${randomUUID()}`, kind: 'unit', parentId: null, timeZone: null },
          ]
      const answer = await test.office.tries(...asked)
      if ([200, 201].includes(answer.status)) continue
      expectUnavailable(asked.slice(0, 2).join(' '), answer)
      lost += 1
    }
  }
  const asking = Array.from({ length: 12 }, (_, number) => ask(number))
  const failed = Promise.all(asking)
  await test.office.get('/api/readiness')
  await happens()
  while (lost === 0) await Promise.race([failed, test.office.tries('GET', '/api/units')])
  isOver = true
  await failed
  return lost
}

describe('a database that was killed', () => {
  it('is 503 with Retry-After on every route and under load, and is found again by itself', async () => {
    expect(await underLoad(() => own.kill())).toBeGreaterThan(0)
    await everyRouteSaysSo().finally(() => own.start())
    await recovers()
  })

  it('is so when a process of it crashed and all connections went', async () => {
    expect(await underLoad(() => own.killOne())).toBeGreaterThan(0)
    await recovers()
  })
})

describe('a database that was stopped', () => {
  it('is 503 with Retry-After on every route and under load, and is found again by itself', async () => {
    expect(await underLoad(() => own.stop())).toBeGreaterThan(0)
    await everyRouteSaysSo().finally(() => own.start())
    await recovers()
  })
})

describe('a database that is frozen', () => {
  it('is 503 with Retry-After on every route, the health before any other, and is found again by itself', async () => {
    await test.office.get('/api/units')
    own.freeze()
    const answered: string[] = []
    const waiting = ['/api/units', '/api/readiness', '/api/notices'].map(async (path) => {
      expectUnavailable(path, await test.office.tries('GET', path))
      answered.push(path)
    })
    expectUnavailable('health', await test.nobody.tries('GET', '/api/health'))
    expectUnavailable('ready', await test.nobody.tries('GET', '/api/health/ready'))
    expect(await test.nobody.get('/api/health/alive')).toEqual({ status: 'alive' })
    expect(answered).toEqual([])
    await Promise.all(waiting)
    await everyRouteSaysSo().finally(() => own.thaw())
    await recovers()
  })

  it('keeps nobody from stopping', async () => {
    const db = openDatabase(own.url)
    await db.$queryRawUnsafe('SELECT 1')
    own.freeze()
    const asked = db.$queryRawUnsafe('SELECT 1').catch((error: unknown) => error)
    await closeDatabase(db)
    expect(isUnreachable(await asked)).toBe(true)
    own.thaw()
    await recovers()
  })
})

describe('word of changes', () => {
  it('comes again after the database was killed, by itself', async () => {
    const signals = openSignals(own.url)
    let hear = () => {}
    const heard = () => new Promise<void>((resolve) => (hear = resolve))
    const first = heard()
    const stop = signals.onTestDay('any', () => hear())
    await first
    await own.kill()
    const again = heard()
    await own.start()
    await again
    stop()
    await signals.close()
    await recovers()
  })
})
