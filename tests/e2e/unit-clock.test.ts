import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { openBrowser } from '../support/browser.ts'
import { atDesk, signInAs } from './every-screen.ts'
import { buildFieldWorld, openDesk, signInOn, startSheet } from './field-world.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

/** Fourteen hours ahead of UTC: there it is tomorrow already. */
const FAR_AWAY = 'Pacific/Kiritimati'

let browser: Browser
let open: BrowserContext | undefined
beforeAll(async () => {
  browser = await openBrowser()
})
afterEach(() => open?.close())
afterAll(() => browser?.close())

const pageOf = async (context: BrowserContext): Promise<Page> => {
  const page = await context.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  return page
}

describe('at a desk far from the unit', () => {
  let world: World
  beforeAll(async () => {
    world = await buildWorld()
    await world.app.signedIn({ name: 'both', roles: ['office', 'administrator'] })
  })
  afterAll(() => world?.close())

  const openFarAway = async (address: string): Promise<Page> => {
    open = await atDesk(browser, { timezoneId: FAR_AWAY })
    await signInAs(world, open, 'both')
    const page = await pageOf(open)
    await page.goto(world.url + address)
    await settled(page)
    return page
  }

  it('moments are by the clock of the unit, which is named once', async () => {
    const page = await openFarAway('/record')
    await page.getByText('All times are New York time; this device’s clock shows another.').waitFor()
    const when = await page.getByRole('table').getByRole('row').nth(1).textContent()
    expect(when).toContain('Wed 17 Jun, 10:00')
  })

  it('a time that the clocks leave out is told of while a sheet is entered', async () => {
    const page = await openFarAway('/enter')
    await page.getByLabel('Day').fill('2026-03-08')
    await page.getByLabel('Started').fill('0230')
    await page.getByText('The clocks are put forward that day, and there is no 02:30: 03:30 is meant.').waitFor()
    await page.getByLabel('Finished').fill('0331')
    await page.getByLabel('Started').fill('0330')
    await page.getByText(/The clocks are put forward/).waitFor({ state: 'detached' })
  })

  it('a test day in the past is asked about before it is planned', async () => {
    const page = await openFarAway('/test-days')
    expect(await page.getByLabel('Day', { exact: true }).inputValue()).toBe('2026-06-17')
    await page.getByLabel('Day', { exact: true }).fill('2026-06-10')
    const asked = page.getByLabel('Wed 10 Jun is past. It took place then.')
    await asked.waitFor()
    await page.getByRole('button', { name: 'Plan it' }).click()
    expect(await asked.evaluate((box: HTMLInputElement) => box.validity.valueMissing)).toBe(true)
    expect(new URL(page.url()).pathname).toBe('/test-days')
    await asked.check()
    await page.getByRole('button', { name: 'Plan it' }).click()
    await page.waitForURL(/\/test-days\/[0-9a-f-]{36}$/)
  })
})

describe('on a phone far from the unit', () => {
  it('today, its bookings and a running sheet are by the clock of the unit', async () => {
    const world = await buildFieldWorld()
    open = await browser.newContext({ timezoneId: FAR_AWAY, reducedMotion: 'reduce' })
    await signInOn(open, world)
    const page = await pageOf(open)
    await openDesk(page, world)
    await page.getByRole('heading', { level: 1, name: 'Two candidates to test today.' }).waitFor()
    await page.getByText('14:00 UTC time', { exact: true }).waitFor()
    await startSheet(page)
    await page.getByRole('button', { name: /cease/i }).click()
    await page.getByText('Since 14:00 UTC time; the time is on the sheet.').waitFor()
    await page.close()
    await open.close()
    open = undefined
    await world.close()
  })
})
