import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { createContext } from '../../../server/context/create-context.ts'
import type { PushState } from '../../../server/contract/notices/push.ts'
import { sendDuePushes } from '../../../server/notices/services/push/send-due-pushes.ts'
import { openPush } from '../../../server/push/open-push.ts'
import { newPushKey, parsePushKey } from '../../../server/push/push-keys.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { makeReceiver, openPushService, PUSH_CA, type PushService } from '../../support/push-service.ts'

const CONTACT = 'mailto:office@unit.example'

let service: PushService
let test: TestApp
let setting: TestSetting
let admin: Client
let candidate: Client
const push = openPush(parsePushKey(newPushKey())!, { ca: PUSH_CA })

beforeAll(async () => {
  service = await openPushService()
  test = await buildTestApp({ push })
  setting = await makeTestSetting(test.office)
  admin = await test.signedIn({ name: 'admin', roles: ['administrator'] })
  candidate = await test.signedIn({ name: 'candidate', roles: ['soldier'], soldierId: setting.candidateId })
})
afterAll(async () => {
  await test.close()
  await service.close()
})
beforeEach(async () => {
  service.arrived.length = 0
  service.answers.clear()
  await test.sql('DELETE FROM push_subscription')
  await admin.put('/api/push', { isOn: true, contact: CONTACT }, 200)
})

let places = 0
const optIn = async (client: Client, more: object = {}) => {
  const receiver = makeReceiver()
  const at = `/to/${places++}`
  await client.put('/api/account/push', { endpoint: `${service.origin}${at}`, keys: receiver.keys, ...more }, 200)
  return { at, receiver }
}
const context = () => createContext({ db: test.db, clock: () => test.clock.now, timeZone: 'UTC', push })
const send = () => sendDuePushes(context())
const state = (client: Client) => client.get<PushState>('/api/push')
let days = 0
const book = async () => {
  const on = `2026-08-${String((days++ % 28) + 1).padStart(2, '0')}`
  const { id } = await test.office.post('/api/test-days', { on, unitId: setting.unitId, place: 'South field' })
  const { candidateId, standard } = setting
  await test.office.post(`/api/test-days/${id}/bookings`, { candidateId, standard })
  return { testDayId: id }
}
const pass = (seconds: number) => {
  test.clock.now = new Date(test.clock.now.getTime() + seconds * 1000)
}

describe('a notification', () => {
  it('of a booking is sent once to whoever opted in, and says nothing but that there is one', async () => {
    const { at, receiver } = await optIn(candidate)
    await book()
    expect(await send()).toBe(1)
    expect(await send()).toBe(0)
    const [message] = service.arrived
    expect(service.arrived).toHaveLength(1)
    expect(message).toMatchObject({
      path: at,
      headers: { 'content-encoding': 'aes128gcm', ttl: '86400', topic: 'booking' },
    })
    expect(message!.headers.authorization).toMatch(/^vapid t=[\w-]+\.[\w-]+\.[\w-]+, k=/)
    expect(receiver.read(message!.body)).toEqual({
      title: 'Reviewstand',
      body: 'A booking that concerns you changed. Open Reviewstand to see it.',
      path: '/notices',
      kind: 'booking',
    })
  })

  it('of a result and of a day that was called off goes out too, one a kind however many there are', async () => {
    const { receiver } = await optIn(candidate)
    const { testDayId } = await book()
    await test.office.post(`/api/test-days/${testDayId}/call-off`, { reason: 'Ice' }, 200)
    await putSheet(test.office, setting.sheet())
    await send()
    const told = service.arrived.map(({ body }) => (receiver.read(body) as { kind: string }).kind)
    expect(told.sort()).toEqual(['booking', 'call-off', 'result'])
  })

  it('is off by default, and off again throws away what waits; nobody but an administrator says so', async () => {
    await optIn(candidate)
    await book()
    for (const client of [candidate, test.office]) {
      await client.refused(403, 'PUT', '/api/push', { isOn: false, contact: CONTACT })
    }
    await admin.put('/api/push', { isOn: false, contact: CONTACT }, 200)
    expect(await send()).toBe(0)
    await book()
    await admin.put('/api/push', { isOn: true, contact: CONTACT }, 200)
    expect(await send()).toBe(0)
    expect((await state(admin)).contact).toBe(CONTACT)
    expect((await state(candidate)).contact).toBeNull()
    await admin.put('/api/push', { isOn: false, contact: CONTACT }, 200)
    const { keys } = makeReceiver()
    await candidate.refused(409, 'PUT', '/api/account/push', { endpoint: `${service.origin}/x`, keys })
    await test.sql('DELETE FROM push_setting')
    expect((await state(candidate)).isOn).toBe(false)
  })

  it('waits longer each time that it fails, outlives a restart, and is given up after a day', async () => {
    const { at } = await optIn(candidate)
    service.answers.set(at, { status: 503 })
    await book()
    expect(await send()).toBe(1)
    pass(29)
    expect(await send()).toBe(0)
    pass(2)
    expect(await send()).toBe(1)
    pass(40)
    expect(await send()).toBe(0)
    service.answers.set(at, { status: 429, headers: { 'retry-after': '1000' } })
    pass(30)
    expect(await send()).toBe(1)
    pass(990)
    expect(await send()).toBe(0)
    service.answers.delete(at)
    pass(20)
    expect(await send()).toBe(1)
    expect(service.arrived).toHaveLength(4)

    service.answers.set(at, { status: 500 })
    await book()
    await send()
    const before = test.clock.now
    pass(86_500)
    await send()
    // Sessions last half a day.
    test.clock.now = before
    expect(await test.sql('SELECT 1 FROM push_message')).toEqual([])
  })

  it('that a server process died over is sent by another, and what came meanwhile is not lost', async () => {
    await optIn(candidate)
    await book()
    await test.sql("UPDATE push_message SET tries = 1, due_at = $1::timestamptz + interval '2 minutes'", [
      test.clock.now,
    ])
    expect(await send()).toBe(0)
    pass(121)
    expect(await send()).toBe(1)

    await book()
    const slow = sendDuePushes({
      ...context(),
      push: {
        ...push,
        async deliver() {
          pass(1)
          await book()
          return { kind: 'taken' }
        },
      },
    })
    await slow
    expect(await send()).toBe(1)
  })

  it('to a subscription that the push service has forgotten ends it', async () => {
    for (const status of [404, 410]) {
      const { at } = await optIn(candidate)
      service.answers.set(at, { status })
      await book()
      await send()
      expect((await state(candidate)).here).toBeNull()
    }
    const { at } = await optIn(candidate)
    service.answers.set(at, { status: 302, headers: { location: `${service.origin}/elsewhere` } })
    await book()
    await send()
    expect(service.arrived.map(({ path: to }) => to)).not.toContain('/elsewhere')
    expect(await test.sql('SELECT 1 FROM push_message')).toEqual([])
  })
})

describe('a browser that opted in', () => {
  const subscriptions = () => test.sql<{ endpoint: string }>('SELECT endpoint FROM push_subscription')

  it('takes none after signing out in it, nor once the account is closed', async () => {
    const phone = await test.signedIn({ name: 'on a phone', roles: ['soldier'], soldierId: setting.sponsorId })
    await optIn(phone)
    expect(await state(phone)).toMatchObject({ isOn: true, elsewhere: 0 })
    expect((await state(phone)).here).not.toBeNull()
    await phone.tries('DELETE', '/api/session')
    expect(await subscriptions()).toEqual([])

    await optIn(candidate)
    await candidate.tries('DELETE', '/api/account/push')
    expect(await subscriptions()).toEqual([])

    const closed = await test.signedIn({ name: 'to be closed', roles: ['soldier'], soldierId: setting.graderId })
    await optIn(closed)
    const [{ id } = { id: '' }] = await test.sql<{ id: string }>("SELECT id FROM account WHERE name = 'to be closed'")
    await admin.post('/api/account/confirmation', { password: PASSWORD }, 200)
    await admin.put(`/api/accounts/${id}/disabled`, { disabled: true }, 200)
    await putSheet(
      test.office,
      setting.sheet({ startedAt: '2026-05-01T09:00:00Z', finishedAt: '2026-05-01T09:30:00Z' }),
    )
    await send()
    expect(service.arrived).toEqual([])
  })

  it('is one account’s at a time: who signs in after takes it over', async () => {
    const { at } = await optIn(candidate)
    const next = await test.signedIn({ name: 'next', roles: ['office'] })
    await optIn(next, { endpoint: `${service.origin}${at}` })
    expect((await state(candidate)).here).toBeNull()
    await book()
    expect(await send()).toBe(0)
  })

  it('is refused where its address is not public, or its key none', async () => {
    const { keys } = makeReceiver()
    const refuse = async (body: object) => {
      const problem = await candidate.refused(422, 'PUT', '/api/account/push', body)
      return problem.errors?.[0]?.pointer
    }
    for (const endpoint of [
      'http://push.example.org/',
      'https://10.0.0.1/',
      'https://intranet/',
      'https://a:b@push.example.org/',
    ]) {
      expect(await refuse({ endpoint, keys })).toBe('/endpoint')
    }
    const endpoint = `${service.origin}/one`
    expect(await refuse({ endpoint, keys: { ...keys, p256dh: `B${'A'.repeat(86)}` } })).toBe('/keys/p256dh')
    await refuse({ endpoint, keys: { ...keys, auth: 'short' } })
    await refuse({ endpoint, keys, name: 'mine' })
    await admin.refused(422, 'PUT', '/api/push', { isOn: true, contact: 'the office' })
  })
})
