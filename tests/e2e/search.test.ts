import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { atDesk, signInAs } from './every-screen.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

let world: World
let browser: Browser
let session: BrowserContext
let page: Page
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
  session = await atDesk(browser)
  await signInAs(world, session, 'office')
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})
beforeEach(async () => {
  page = await session.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  await page.goto(`${world.url}/notices`)
  await settled(page)
  await page.keyboard.press('/')
  return () => page.close()
})

const field = () => page.getByRole('combobox', { name: /Soldier by name or roster number/ })

describe('the key / finds', () => {
  it('a page as of a day, by what one means, with keys alone', async () => {
    await field().pressSequentially('who may stand on 31 Dec')
    await page.getByRole('option', { name: /^Who can stand, as of 31 Dec/ }).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.keyboard.press('Enter')
    await page.waitForURL(/\/stand\?asOf=2026-12-31$/)
  })

  it('a soldier first, and the deeds after', async () => {
    await field().pressSequentially('1007')
    await page.getByRole('option', { name: /1007/ }).waitFor()
    await page.keyboard.press('Enter')
    await page.waitForURL(/\/candidates\/[0-9a-f-]+$/)
  })

  it('words and cards', async () => {
    await field().pressSequentially('glossary')
    await page.getByRole('option', { name: /^Words/ }).click()
    await page.getByRole('heading', { level: 1, name: 'What the words on these pages mean.' }).waitFor()
    await page.getByLabel('Find').fill('stands by')
    await page.getByText('Alternate', { exact: true }).waitFor()
    expect(await page.locator('.glossary dt').count()).toBe(1)
    expect(await axeViolations(page)).toEqual([])
  })
})
