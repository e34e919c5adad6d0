import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser, openPage, type screens } from '../support/browser.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../support/build-test-app.ts'
import { settled } from './world.ts'

let test: TestApp
let browser: Browser
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-17T14:00:00Z', timeZone: 'America/New_York' })
  browser = await openBrowser()
})
afterAll(async () => {
  await browser.close()
  await test.close()
})

async function open(address: string, screen: keyof typeof screens = 'desktop'): Promise<Page> {
  const url = test.app.listeningOrigin
  const page = await openPage(browser, `${url}/sign-in`, screen)
  const answer = await page.request.post(`${url}/api/session`, {
    data: { name: 'office', password: PASSWORD },
    headers: { origin: url },
  })
  expect(answer.ok()).toBe(true)
  await page.goto(url + address)
  await settled(page)
  return page
}

describe('a unit that begins with nothing', () => {
  it('is led from the desk to its first step, which ticks itself', async () => {
    const page = await open('/')
    await page.getByText('Next: Units.').waitFor()
    await page.getByRole('link', { name: 'Make the units' }).click()
    await page.getByRole('button', { name: 'Add a unit', exact: true }).first().click()
    await page.getByLabel('Name').fill('Calloway Point Color Guard')
    await page.getByLabel('Time zone').fill('America/New_York')
    await page.getByRole('button', { name: 'Add the unit' }).click()
    await page.getByRole('heading', { level: 1, name: 'One unit.' }).waitFor()
    await page.getByRole('button', { name: 'Add below Calloway Point Color Guard' }).click()
    await page.getByLabel('Name').fill('Frist Team')
    await page.getByLabel('Level').selectOption('platoon')
    await page.getByRole('button', { name: 'Add the unit' }).click()
    await page.getByRole('heading', { level: 1, name: 'Two units, one of them at the top.' }).waitFor()

    await page.getByRole('button', { name: 'Change Frist Team' }).click()
    await page.getByLabel('Name').fill('First Team')
    await page.getByRole('button', { name: 'Store the change' }).click()
    await page.getByRole('button', { name: 'Change First Team' }).waitFor()
    expect(await axeViolations(page)).toEqual([])

    await page.goto(`${test.app.listeningOrigin}/first-steps`)
    await page.getByRole('heading', { level: 1, name: 'Nine steps of ten are left.' }).waitFor()
    await page.getByText('✓ Two units').waitFor()
    await page.context().close()
  })

  it('leaves out what it does without, and finds it again', async () => {
    const page = await open('/first-steps', 'phone')
    const ceremony = page.getByRole('listitem').filter({ hasText: 'First ceremony' })
    await ceremony.getByRole('button', { name: 'Leave it out' }).click()
    await page.getByRole('heading', { level: 1, name: 'Eight steps of ten are left.' }).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await ceremony.getByRole('button', { name: 'Take it up again' }).click()
    await page.getByRole('heading', { level: 1, name: 'Nine steps of ten are left.' }).waitFor()
    await page.context().close()
  })

  it('takes out a unit made by mistake, and is told why another one stays', async () => {
    const page = await open('/units', 'phone')
    await page.getByRole('button', { name: 'Take out Calloway Point Color Guard' }).click()
    await page.getByRole('button', { name: 'Take it out' }).click()
    await page.getByText('Calloway Point Color Guard stays: it has units below it.').waitFor()
    await page.getByRole('button', { name: 'Leave it as it is' }).click()
    await page.getByRole('button', { name: 'Take out First Team' }).click()
    await page.getByRole('button', { name: 'Take it out' }).click()
    await page.getByRole('heading', { level: 1, name: 'One unit.' }).waitFor()
    await page.context().close()
  })
})
