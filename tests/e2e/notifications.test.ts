import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { createContext } from '../../server/context/create-context.ts'
import { sendDuePushes } from '../../server/notices/services/push/send-due-pushes.ts'
import { openPush } from '../../server/push/open-push.ts'
import { newPushKey, parsePushKey } from '../../server/push/push-keys.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { makeReceiver, openPushService, PUSH_CA, type PushService } from '../support/push-service.ts'
import { buildFieldWorld, type FieldWorld, newPhone, pageOn, signInOn } from './field-world.ts'

let browser: Browser
let service: PushService
let world: FieldWorld
let phone: BrowserContext
let page: Page
const push = openPush(parsePushKey(newPushKey())!, { ca: PUSH_CA })
beforeAll(async () => {
  browser = await openBrowser()
  service = await openPushService()
  world = await buildFieldWorld({ push })
  await world.app.signedIn({ name: 'chief', roles: ['administrator'] })
  await world.app.signedIn({ name: 'amadi', roles: ['soldier'], soldierId: world.candidateId })
  phone = await newPhone(browser)
  await phone.grantPermissions(['notifications'], { origin: world.url })
})
afterAll(async () => {
  await phone?.close()
  await browser?.close()
  await world?.close()
  await service?.close()
})

const send = () =>
  sendDuePushes(createContext({ db: world.app.db, clock: () => world.app.clock.now, timeZone: 'UTC', push }))

describe('notifications', () => {
  it('are let be sent by an administrator, taken on a device by its owner, and end with signing out', async () => {
    await signInOn(phone, world, 'chief')
    page = await pageOn(phone)
    await page.goto(`${world.url}/account`)
    await page.getByText('Notifications are off in this unit.').waitFor()
    await page.getByLabel('Whom push services write to about this server').fill('mailto:office@unit.example')
    await page.getByRole('button', { name: 'Let notifications be sent' }).click()
    await page.getByText(/^This device takes none/).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.close()

    const receiver = makeReceiver()
    await signInOn(phone, world, 'amadi')
    page = await pageOn(phone)
    // There is no push service of a browser's maker here: the subscription it would give is made by the test.
    await page.addInitScript(
      ({ endpoint, keys }) => {
        // This browser has no screen to show one on, and says so by a refusal.
        Object.defineProperty(Notification, 'permission', { get: () => 'granted' })
        let given: object | null = null
        const subscription = { toJSON: () => ({ endpoint, keys }), unsubscribe: async () => delete localStorage.given }
        PushManager.prototype.subscribe = async ({ applicationServerKey } = {}) => {
          localStorage.given = String(applicationServerKey)
          given = subscription
          return subscription as unknown as PushSubscription
        }
        PushManager.prototype.getSubscription = async () =>
          (localStorage.given ? (given ?? subscription) : null) as PushSubscription | null
      },
      { endpoint: `${service.origin}/amadi`, keys: receiver.keys },
    )
    await page.goto(`${world.url}/account`)
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready
    })
    await page.getByRole('button', { name: 'Notify me on this device' }).click()
    await page.getByText(/^This device takes them since/).waitFor()
    expect(await page.evaluate(() => localStorage.given)).toBe(push.publicKey)
    expect(await axeViolations(page)).toEqual([])

    const other = await world.app.office.post('/api/test-days', { on: '2026-06-24', unitId: await topUnit() })
    await world.app.office.post(`/api/test-days/${other.id}/bookings`, {
      candidateId: world.candidateId,
      standard: 'sword-saber-standing',
    })
    expect(await send()).toBe(1)
    const content = receiver.read(service.arrived[0]!.body) as { body: string }
    expect(content.body).toBe('A booking that concerns you changed. Open Reviewstand to see it.')

    const asked = await listen()
    await deliver(JSON.stringify(content))
    await expect.poll(asked).toEqual([{ title: 'Reviewstand', body: content.body, tag: 'booking' }])

    await page.getByRole('button', { name: 'Menu' }).click()
    await page.getByRole('button', { name: 'amadi' }).click()
    await page.getByRole('button', { name: 'Sign out', exact: true }).click()
    await page.waitForURL(/\/sign-in/)
    expect(await world.app.sql('SELECT 1 FROM push_subscription')).toEqual([])
    await expect.poll(() => page.evaluate(() => localStorage.given ?? null)).toBeNull()
  })
})

const topUnit = async () => (await world.app.office.get<{ items: { id: string }[] }>('/api/units')).items[0]!.id

/** Hands the worker a message, as the browser would that a push service sent it to. */
async function deliver(data: string): Promise<void> {
  const session = await phone.newCDPSession(page)
  const registered = new Promise<string>((resolve) => {
    session.on('ServiceWorker.workerRegistrationUpdated', ({ registrations }) => {
      const [first] = registrations
      if (first) resolve(first.registrationId)
    })
  })
  await session.send('ServiceWorker.enable')
  const registrationId = await registered
  await session.send('ServiceWorker.deliverPushMessage', { origin: world.url, registrationId, data })
  await session.detach()
}

interface Shown {
  readonly title: string
  readonly body: string
  readonly tag: string
}

/** Hears what the worker has shown from now on. Out: what it was so far. */
async function listen(): Promise<() => Promise<Shown[]>> {
  const worker = phone.serviceWorkers().find((one) => one.url().endsWith('/sw.js'))!
  await worker.evaluate(() => {
    const { registration } = globalThis as unknown as { registration: ServiceWorkerRegistration }
    const shown: Shown[] = []
    registration.showNotification = async (title, { body = '', tag = '' } = {}) => {
      shown.push({ title, body, tag })
    }
    Object.assign(globalThis, { shown })
  })
  return () => worker.evaluate(() => (globalThis as unknown as { shown: Shown[] }).shown)
}
