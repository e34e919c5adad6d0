import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { axeViolations, openBrowser, screens } from '../support/browser.ts'
import { carryOver, makeSoldier, makeUnit } from '../support/factories.ts'
import { signIn } from '../support/sign-in.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

const OUTSIDER = 'Vandermolen'

let world: World
let browser: Browser
let page: Page
/** All that came over the wire. */
let wire = ''
beforeAll(async () => {
  world = await buildWorld()
  const { office } = world.app
  const elsewhere = await makeUnit(office, { name: 'B Company', kind: 'company', timeZone: null })
  const outsider = await makeSoldier(office, elsewhere, { familyName: OUTSIDER, arms: ['sword'] })
  await carryOver(office, outsider, 'sword', { validThrough: '2026-07-01' })
  await world.app.signedIn({ name: 'commander', roles: ['commander'], unitId: world.platoonId })
  browser = await openBrowser()
  const context = await browser.newContext({
    viewport: screens.desktop,
    reducedMotion: 'reduce',
    serviceWorkers: 'block',
  })
  page = await context.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  page.on('response', async (response) => {
    if (response.url().includes('/api/')) wire += await response.text().catch(() => '')
  })
  await signIn(page, world.url, 'commander')
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

const goTo = async (address: string) => {
  await page.goto(world.url + address)
  await settled(page)
}

it('goes from a share to a name', async () => {
  await goTo('/')
  expect(await page.locator('h1').textContent()).toBe('2 of 5 required certifications are in force.')
  const share = page.getByRole('article').getByRole('link', { name: 'Sword' })
  expect(await page.getByRole('article').textContent()).toContain('2 of 5')
  await share.click()
  await page.waitForURL(/\/stand\?.*certification=sword/)
  await page
    .getByRole('link', { name: /Ashdown, Mirela/ })
    .first()
    .click()
  await page.waitForURL(/\/candidates\//)
})

it('sees the months in figures, each a way to the people of that day', async () => {
  await goTo('/')
  await page.getByText('Month by month in figures').click()
  await page
    .getByRole('row', { name: /30 April 2026/ })
    .getByRole('link')
    .click()
  await page.waitForURL(/asOf=2026-04-30/)
  await page.goBack()
  await settled(page)
  expect(new URL(page.url()).pathname).toBe('/')
})

it('suspends somebody with a reason, is told what will happen, and lifts it', async () => {
  await goTo('/suspensions')
  await page.getByRole('button', { name: 'Suspend somebody' }).click()
  await page.getByLabel('Soldier').fill('ashd')
  await page.getByRole('option', { name: /Ashdown/ }).click()
  await page.getByRole('button', { name: 'Suspend', exact: true }).click()
  expect(await page.getByText('Say why first.').count()).toBe(1)
  await page.getByLabel('Reason, which goes on record').fill('Sword dropped at rehearsal')
  await page.getByRole('button', { name: 'Suspend', exact: true }).click()
  const dialog = page.getByRole('dialog')
  expect(await dialog.textContent()).toMatch(/may not stand/)
  expect(await axeViolations(page)).toEqual([])
  await dialog.getByRole('button', { name: 'Suspend' }).click()
  await page.getByText('One suspension is in force.').waitFor()
  await page.getByRole('button', { name: /Lift the suspension of/ }).click()
  await page.getByRole('dialog').getByLabel('Reason').fill('Drilled again')
  await page.getByRole('dialog').getByRole('button', { name: 'Lift it' }).click()
  await page.getByText('No suspension is in force.').waitFor()
})

it('finds a soldier from anywhere by the key /, but not while typing', async () => {
  await goTo('/suspensions')
  await page.keyboard.press('/')
  await page.getByRole('dialog').getByRole('combobox').fill('ash')
  await page.getByRole('option', { name: /Ashdown/ }).waitFor()
  expect(await axeViolations(page)).toEqual([])
  await page.keyboard.press('Escape')
  await page.getByRole('dialog').waitFor({ state: 'detached' })
  await page.getByRole('button', { name: 'Suspend somebody' }).click()
  await page.getByLabel('Reason, which goes on record').press('/')
  expect(await page.getByRole('dialog').count()).toBe(0)
  await goTo('/')
  await page.keyboard.press('/')
  await page.getByRole('dialog').getByRole('combobox').fill('1003')
  await page.getByRole('option', { name: /Ashdown/ }).waitFor()
  await page.keyboard.press('Enter')
  await page.waitForURL(/\/candidates\//)
})

it('got only data of the own unit over the wire', () => {
  expect(wire).toContain('Ashdown')
  expect(wire).not.toContain(OUTSIDER)
})
