import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildApp } from '../../../server/app.ts'
import type { TestDayLine } from '../../../server/contract/test-days/running-tests.ts'
import { closeDatabase, openDatabase } from '../../../server/db/client.ts'
import { openSignals } from '../../../server/process/start/open-signals.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import { type Client, createClient } from '../../support/client.ts'
import { makeSoldier, makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'

let test: TestApp
let setting: TestSetting
let testDayId: string
let grader: Client
let second: Client
let secondId: string
let bookingId: string

beforeAll(async () => {
  test = await buildTestApp({ now: '2026-03-02T10:00:00Z' })
  const { office } = test
  setting = await makeTestSetting(office)
  testDayId = (await office.post('/api/test-days', { on: '2026-03-02', unitId: setting.unitId })).id
  secondId = await makeSoldier(office, setting.unitId)
  const { candidateId, standard, graderId } = setting
  bookingId = (await office.post(`/api/test-days/${testDayId}/bookings`, { candidateId, standard, graderId })).id
  grader = await test.signedIn({ name: 'grader', roles: ['grader'], soldierId: graderId })
  second = await test.signedIn({ name: 'second grader', roles: ['grader'], soldierId: secondId })
})
afterAll(() => test.close())

const line = (client: Client) => client.get<TestDayLine>(`/api/test-days/${testDayId}/line`)
const running = (more: object = {}) => ({
  testDayId,
  candidateId: setting.candidateId,
  standard: setting.standard,
  graderId: setting.graderId,
  startedAt: '2026-03-02T09:40:00Z',
  state: 'running',
  calls: 10,
  callsDone: 4,
  go: 1,
  noGo: 1,
  ...more,
})

describe('the line of a test day', () => {
  it('shows a running test until its sheet arrives, then how it ended', async () => {
    const id = randomUUID()
    await grader.put(`/api/running-tests/${id}`, running(), 204)
    await grader.put(`/api/running-tests/${id}`, running({ callsDone: 7, go: 2, state: 'ceased' }), 204)
    const before = await line(test.office)
    expect(before.running).toMatchObject([{ sheetId: id, callsDone: 7, go: 2, noGo: 1, state: 'ceased' }])
    await putSheet(test.office, setting.sheet({ testDayId }), id)
    const after = await line(test.office)
    expect(after.running).toEqual([])
    expect(after.closed).toMatchObject([{ sheetId: id, outcome: 'GO', state: 'counted' }])
    await grader.put(`/api/running-tests/${id}`, running({ callsDone: 9 }), 204)
    expect((await line(test.office)).running).toEqual([])
  })

  it('forgets a device that has not been heard of for four hours', async () => {
    const id = randomUUID()
    await grader.put(`/api/running-tests/${id}`, running(), 204)
    test.clock.now = new Date('2026-03-02T14:00:01Z')
    expect((await line(test.office)).running).toEqual([])
    test.clock.now = new Date('2026-03-02T10:00:00Z')
    await grader.tries('DELETE', `/api/running-tests/${id}`)
    expect((await line(test.office)).running).toEqual([])
  })

  it('refuses word about somebody else’s test, and leaves what it cannot know', async () => {
    const id = randomUUID()
    await second.refused(403, 'PUT', `/api/running-tests/${id}`, running())
    await grader.refused(422, 'PUT', `/api/running-tests/${id}`, running({ callsDone: 11 }))
    await grader.refused(422, 'PUT', `/api/running-tests/${id}`, running({ testDayId: randomUUID() }))
    await grader.refused(422, 'PUT', `/api/running-tests/${id}`, running({ candidateId: randomUUID() }))
    await grader.put(`/api/running-tests/${id}`, running(), 204)
    await second.tries('DELETE', `/api/running-tests/${id}`)
    expect((await line(test.office)).running).toHaveLength(1)
    await second.put(`/api/running-tests/${id}`, running({ graderId: secondId, callsDone: 0 }), 204)
    expect((await line(test.office)).running).toMatchObject([{ graderId: setting.graderId, callsDone: 4 }])
    await grader.tries('DELETE', `/api/running-tests/${id}`)
  })
})

describe('two graders of one attempt', () => {
  it('see nothing of each other’s before both are stored', async () => {
    const [first, other] = [randomUUID(), randomUUID()]
    await test.office.post(`/api/bookings/${bookingId}/second-grader`, { graderId: secondId }, 200)
    await grader.put(`/api/running-tests/${first}`, running(), 204)
    await second.put(
      `/api/running-tests/${other}`,
      running({ graderId: secondId, secondOf: first, go: 3, noGo: 0 }),
      204,
    )
    const go = async (client: Client) => new Map((await line(client)).running.map((one) => [one.sheetId, one.go]))
    const nothing = null
    expect(await go(grader)).toEqual(
      new Map([
        [first, 1],
        [other, nothing],
      ]),
    )
    expect(await go(second)).toEqual(
      new Map([
        [first, nothing],
        [other, 3],
      ]),
    )

    await putSheet(grader, setting.sheet({ testDayId, finishedAt: '2026-03-02T09:50:00Z' }), first)
    await second.refused(404, 'GET', `/api/sheets/${first}`)
    expect((await line(second)).closed.map(({ sheetId }) => sheetId)).not.toContain(first)
    expect(JSON.stringify(await second.get('/api/sheets'))).not.toContain(first)

    await putSheet(
      second,
      setting.sheet({ testDayId, graderId: secondId, secondOf: first, finishedAt: '2026-03-02T09:51:00Z' }),
      other,
    )
    expect((await second.get<{ id: string }>(`/api/sheets/${first}`)).id).toBe(first)
    expect((await grader.get<{ id: string }>(`/api/sheets/${other}`)).id).toBe(other)
  })

  it('keeps a second sheet from the first grader while the first is still out', async () => {
    const [first, other] = [randomUUID(), randomUUID()]
    const finishedAt = '2026-03-02T09:55:00Z'
    await putSheet(second, setting.sheet({ testDayId, graderId: secondId, secondOf: first, finishedAt }), other)
    await grader.refused(404, 'GET', `/api/sheets/${other}`)
    expect((await second.get<{ id: string }>(`/api/sheets/${other}`)).id).toBe(other)
    expect((await test.office.get<{ id: string }>(`/api/sheets/${other}`)).id).toBe(other)
    await putSheet(grader, setting.sheet({ testDayId, finishedAt }), first)
    expect((await grader.get<{ id: string }>(`/api/sheets/${other}`)).id).toBe(other)
  })
})

describe('the stream of changes', () => {
  it('tells of a change that another server process made', async () => {
    const database = test.databaseUrl
    const db = openDatabase(database)
    const elsewhere = await buildApp({
      config: { demo: false, timeZone: 'UTC' },
      db,
      clock: () => test.clock.now,
      signals: openSignals(database),
      logger: false,
    })
    await elsewhere.listen({ port: 0, host: '127.0.0.1' })
    const client = createClient(elsewhere.server)
    await client.post('/api/session', { name: 'grader', password: PASSWORD }, 200)
    const stream = await follow(`/api/test-days/${testDayId}/line/changes`)
    try {
      expect(await stream.next()).toContain('event: changed')
      await stream.quiet()
      const id = randomUUID()
      await client.put(`/api/running-tests/${id}`, running(), 204)
      expect(await stream.next()).toContain('event: changed')
      await client.tries('DELETE', `/api/running-tests/${id}`)
    } finally {
      stream.close()
      await elsewhere.close()
      await closeDatabase(db)
    }
  })

  it('needs a session and a test day that is there', async () => {
    await test.nobody.refused(401, 'GET', `/api/test-days/${testDayId}/line/changes`)
    await test.office.refused(404, 'GET', `/api/test-days/${randomUUID()}/line/changes`)
    const stranger = await test.signedIn({ name: 'stranger', roles: ['administrator'] })
    await stranger.refused(404, 'GET', `/api/test-days/${testDayId}/line/changes`)
  })

  it('ends once the account of whoever follows is disabled, though nothing happens on the test day', async () => {
    const name = 'follower'
    await test.signedIn({ name })
    const admin = await test.signedIn({ name: 'admin-of-follower', roles: ['administrator'] })
    const { items } = await admin.get<{ items: { id: string; name: string }[] }>('/api/accounts?limit=500')
    const stream = await follow(`/api/test-days/${testDayId}/line/changes`, test, name)
    try {
      expect(await stream.next()).toContain('event: changed')
      const { id } = items.find((account) => account.name === name)!
      await admin.put(`/api/accounts/${id}/disabled`, { disabled: true }, 200)
      expect(await stream.ended()).toBe(true)
    } finally {
      stream.close()
    }
  })

  it('ends when the server stops', async () => {
    const own = await buildTestApp({ now: '2026-03-02T10:00:00Z' })
    const there = await makeTestSetting(own.office)
    const day = (await own.office.post('/api/test-days', { on: '2026-03-02', unitId: there.unitId })).id
    const stream = await follow(`/api/test-days/${day}/line/changes`, own)
    expect(await stream.next()).toContain('event: changed')
    await own.close()
    expect(await stream.ended()).toBe(true)
  })
})

/** Follows a stream as an account does, the office unless told otherwise. */
async function follow(path: string, app: TestApp = test, name = 'office') {
  const address = app.app.server.address()
  if (address === null || typeof address === 'string') throw new Error('The server does not listen on a port.')
  const signIn = await app.app.inject({
    method: 'POST',
    url: '/api/session',
    headers: { 'sec-fetch-site': 'same-origin' },
    payload: { name, password: PASSWORD },
  })
  const cookie = String(signIn.headers['set-cookie']).split(';')[0]!
  const aborted = new AbortController()
  const answer = await fetch(`http://127.0.0.1:${address.port}${path}`, {
    headers: { cookie, accept: 'text/event-stream' },
    signal: aborted.signal,
  })
  expect(answer.status).toBe(200)
  expect(answer.headers.get('content-type')).toContain('text/event-stream')
  const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader()
  let pending = reader.read()
  const take = async () => {
    const { value, done } = await pending
    if (!done) pending = reader.read()
    return done ? null : value
  }
  return {
    async next() {
      return (await take()) ?? ''
    },
    /** Takes what still comes within half a second. */
    async quiet() {
      const silence = () => new Promise<'silence'>((resolve) => setTimeout(() => resolve('silence'), 500))
      while ((await Promise.race([pending.then(() => 'word' as const), silence()])) === 'word') await take()
    },
    async ended() {
      while ((await take()) !== null);
      return true
    },
    close() {
      pending.catch(() => {})
      aborted.abort()
    },
  }
}
