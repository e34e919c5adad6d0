import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openBrowser, openPage } from '../support/browser.ts'
import { PASSWORD } from '../support/build-test-app.ts'
import { buildWorld, openAsOffice, type World } from './world.ts'

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

describe('a session', () => {
  it('begins at the page that was asked for', async () => {
    const page = await openPage(browser, `${world.url}/retests?unitId=${world.platoonId}`, 'desktop')
    await page.getByLabel('Name').fill('office')
    await page.getByLabel('Password').fill('wrong')
    await page.keyboard.press('Enter')
    await page.getByRole('alert').waitFor()
    expect(await page.getByRole('alert').textContent()).not.toMatch(/POST|api/)
    await page.getByLabel('Password').fill(PASSWORD)
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { name: /retest is open in 2nd Platoon/ }).waitFor()
    expect(new URL(page.url()).pathname).toBe('/retests')
    await page.context().close()
  })

  it('ends on signing out', async () => {
    const page = await openAsOffice(world, browser, '/')
    await page.getByRole('button', { name: 'office' }).click()
    await page.getByRole('button', { name: 'Sign out' }).click()
    await page.getByRole('heading', { name: 'Sign in to see who can stand.' }).waitFor()
    await page.goto(`${world.url}/held`)
    await page.getByRole('heading', { name: 'Sign in to see who can stand.' }).waitFor()
    await page.context().close()
  })

  it('remembers the theme of the device', async () => {
    const page = await openAsOffice(world, browser, '/')
    await page.getByRole('button', { name: 'office' }).click()
    const paper = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor)
    await page.getByLabel('Theme').selectOption('dark')
    const dark = await paper()
    await page.reload()
    expect(await paper()).toBe(dark)
    expect(dark).not.toBe('rgb(250, 248, 243)')
    await page.context().close()
  })
})
