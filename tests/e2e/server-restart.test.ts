import { setTimeout } from 'node:timers/promises'
import type { Browser, BrowserContext } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { openBrowser } from '../support/browser.ts'
import { killProducts, type Product, startProduct } from '../support/start-product.ts'
import {
  buildFieldWorld,
  type FieldWorld,
  finishSheet,
  newPhone,
  openDesk,
  sheetsOn,
  signInOn,
  waitingSheets,
} from './field-world.ts'

let browser: Browser
let world: FieldWorld
let phone: BrowserContext
beforeAll(async () => {
  browser = await openBrowser()
  world = await buildFieldWorld()
  phone = await newPhone(browser)
})
afterAll(async () => {
  await browser?.close()
  await killProducts()
  await world?.close()
})

const stored = async (): Promise<string[]> =>
  (await world.app.sql<{ id: string }>('SELECT id FROM sheet ORDER BY id')).map(({ id }) => id)

it('forty sheets are each on the server once though it is killed and stopped while they go out', async () => {
  const settings = { DATABASE_URL: world.app.databaseUrl, REVIEWSTAND_DEMO: 'off' }
  let product: Product = await startProduct(settings)
  const { url } = product
  const here = { ...world, url }
  await signInOn(phone, here)
  const page = await phone.newPage()
  await openDesk(page, here)
  await phone.setOffline(true)
  await page.getByRole('link', { name: 'Somebody without a booking' }).click()
  await page.getByRole('button', { name: /open the day$/ }).click()
  await page.getByLabel('Roster number').fill('1010')
  await page.getByLabel('Family name').fill('Brandt')
  await page.getByText('sword', { exact: true }).click()
  await page.getByRole('button', { name: /start the test/ }).click()
  await finishSheet(page)
  await waitingSheets(page, 39)
  await page.goto(`${url}/`)
  await page.getByText('40 sheets on this phone, not yet sent').waitFor()
  await phone.setOffline(false)

  // Killed after some, then stopped in order after some more, each time in the middle of sending.
  for (const [least, signal] of [
    [5, 'SIGKILL'],
    [15, 'SIGTERM'],
  ] as const) {
    while ((await stored()).length < least) await setTimeout(10)
    await product.end(signal)
    const there = await stored()
    expect(there.length).toBeLessThan(40)
    product = await startProduct({ ...settings, PORT: new URL(url).port })
    await page.getByRole('button', { name: 'Send now' }).click()
  }
  await page.getByText('Every closed sheet is sent').waitFor()
  const onPhone = await sheetsOn(page)
  expect(onPhone).toHaveLength(40)
  expect(new Set(onPhone.map(({ state }) => state))).toEqual(new Set(['stored']))
  expect(await stored()).toEqual(onPhone.map(({ id }) => id))
})
