import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { axeViolations, openBrowser, openPage, type screens } from '../support/browser.ts'
import { PASSWORD } from '../support/build-test-app.ts'
import { buildWorld, NOW, type World } from './world.ts'

let world: World
let browser: Browser
beforeAll(async () => {
  world = await buildWorld()
  await world.app.signedIn({ name: 'clerk' })
  await world.app.signedIn({ name: 'platoon leader', roles: ['leader'], unitId: world.platoonId })
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

async function openAccount(name: string, screen: keyof typeof screens): Promise<Page> {
  const page = await openPage(browser, 'about:blank', screen)
  await page.clock.setFixedTime(new Date(NOW))
  await page.goto(`${world.url}/account`)
  await page.getByLabel('Name').fill(name)
  await page.getByLabel('Password').fill(PASSWORD)
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { name: 'Scripts' }).waitFor()
  return page
}

async function axeInEveryTheme(page: Page): Promise<string[]> {
  const found: string[] = []
  for (const theme of ['light', 'dark', 'sun']) {
    await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
    for (const violation of await axeViolations(page)) found.push(`${theme}: ${violation}`)
  }
  return found
}

const rosterBy = (token: string) =>
  world.app.nobody.tries('GET', '/api/roster.csv', undefined, { authorization: `Bearer ${token}` })

it.each([
  ['clerk', 'desktop'],
  ['platoon leader', 'phone'],
] as const)('%s makes a token, sees it once, uses it, and revokes it (%s)', async (name, screen) => {
  const page = await openAccount(name, screen)
  const part = page.locator('section').filter({ has: page.getByRole('heading', { name: 'Scripts' }) })
  const picture = async (step: string) => {
    const folder = process.env.PICTURES
    if (folder) await page.screenshot({ path: `${folder}/${screen}-${step}.png`, fullPage: true })
  }
  await part.getByRole('button', { name: 'Make a token' }).click()
  await part.getByLabel('Name of the script').fill('Night roster')
  await part.getByRole('button', { name: 'Make the token' }).click()
  await part.getByText('Say what the token is for.').waitFor()
  await part.getByRole('checkbox', { name: 'Read the roster, units and absences' }).check()
  await part.getByLabel('Unit', { exact: true }).selectOption({ value: world.platoonId })
  await picture('form')
  expect(await axeInEveryTheme(page)).toEqual([])
  await part.getByRole('button', { name: 'Make the token' }).click()
  const token = await part.getByLabel('Token Night roster').inputValue()
  await part.getByText('read the roster', { exact: true }).waitFor()
  await picture('made')
  expect(await axeInEveryTheme(page)).toEqual([])

  expect(await rosterBy(token)).toMatchObject({ status: 200, body: expect.stringContaining('Amadi') })
  await page.reload()
  await part
    .getByText(/17 Jun\b/)
    .first()
    .waitFor()
  expect(await page.content()).not.toContain(token)
  await picture('list')

  await part.getByRole('button', { name: 'Revoke: Night roster' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Revoke it' }).click()
  await part.getByRole('button', { name: 'Revoke: Night roster' }).waitFor({ state: 'detached' })
  expect(await rosterBy(token)).toMatchObject({ status: 401 })
  await page.context().close()
})
