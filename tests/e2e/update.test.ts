import fs from 'node:fs'
import path from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openBrowser, screens } from '../support/browser.ts'
import { signIn } from '../support/sign-in.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

let world: World
let browser: Browser
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

const files = () => fs.readdirSync(path.join(import.meta.dirname, '../../dist/web/assets'))
/** The name of a file in the build that follows: what names it has changed with its content. */
const renamed = (file: string) => file.replace(/(\.\w+)$/, '-next$1')
const former = (file: string) => file.replace(/-next(\.\w+)$/, '$1')

/** A page of the office in a browser without the offline app, and a way to put a newer build on the server behind it. */
async function openBeforeUpdate(address: string): Promise<{ page: Page; update: () => void }> {
  const context = await browser.newContext({ viewport: screens.desktop, serviceWorkers: 'block' })
  const names = files()
  let updated = false
  await context.route(`${world.url}/**`, async (route) => {
    const { pathname } = new URL(route.request().url())
    const isPart = pathname.startsWith('/assets/')
    if (!updated || pathname.startsWith('/api/')) return route.fallback()
    const file = path.basename(pathname)
    if (isPart && names.includes(file)) return route.fulfill({ status: 404, body: 'Not found' })
    const answer = await route.fetch(isPart ? { url: `${world.url}/assets/${former(file)}` } : {})
    if (!/\.(js|css)$/.test(pathname) && isPart) return route.fulfill({ response: answer })
    const body = names.reduce((text, name) => text.replaceAll(name, renamed(name)), await answer.text())
    return route.fulfill({ response: answer, body })
  })
  const page = await context.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  await signIn(page, world.url, 'office')
  await page.goto(world.url + address)
  await settled(page)
  return { page, update: () => (updated = true) }
}

const entryOf = (page: Page) => page.locator('script[type=module]').first().getAttribute('src')

describe('a page left open over an update', () => {
  it('says so and loads the newer version of the page one goes to, and never that it broke', async () => {
    const { page, update } = await openBeforeUpdate('/people')
    const before = await entryOf(page)
    update()
    const said = page.getByText('Reviewstand was updated while this page was open.').waitFor()
    await page.evaluate(() => {
      history.pushState(null, '', '/suspensions')
      dispatchEvent(new PopStateEvent('popstate'))
    })
    await said
    expect(await page.getByText('broke').count()).toBe(0)
    await page.waitForFunction(
      (entry) => document.querySelector('script[type=module]')?.getAttribute('src') !== entry,
      before,
    )
    await settled(page)
    expect(new URL(page.url()).pathname).toBe('/suspensions')
    expect(await page.title()).toMatch(/Suspen/)
    expect(await entryOf(page)).toBe(before && `/assets/${renamed(path.basename(before))}`)
    await page.context().close()
  })

  it('puts back what was typed in a form of the page', async () => {
    const { page, update } = await openBeforeUpdate('/people')
    await page.getByRole('button', { name: 'Add a soldier' }).click()
    const number = page.getByLabel('Roster number', { exact: true })
    await number.fill('1042')
    await page.getByLabel('Family name').fill('Okonjo')
    const before = await entryOf(page)
    update()
    // The search is a part that comes only when it is asked for.
    await page
      .getByRole('button', { name: /search|find/i })
      .first()
      .click()
    await page.waitForFunction(
      (entry) => document.querySelector('script[type=module]')?.getAttribute('src') !== entry,
      before,
    )
    await settled(page)
    await page.getByRole('button', { name: 'Add a soldier' }).click()
    await page.waitForFunction(() => [...document.querySelectorAll('input')].some((field) => field.value === 'Okonjo'))
    expect(await number.inputValue()).toBe('1042')
    await page.context().close()
  })

  it('says that the server does not answer where it does not', async () => {
    const { page } = await openBeforeUpdate('/people')
    await page.context().setOffline(true)
    await page.evaluate(() => {
      history.pushState(null, '', '/suspensions')
      dispatchEvent(new PopStateEvent('popstate'))
    })
    await page.getByText('The server does not answer, so this page cannot be loaded.').waitFor()
    await page.context().close()
  })
})
