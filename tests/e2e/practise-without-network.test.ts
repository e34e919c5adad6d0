import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { buildFieldWorld, type FieldWorld, finishSheet, newPhone, pageOn, signInOn } from './field-world.ts'

let browser: Browser
let world: FieldWorld
let phone: BrowserContext
let page: Page
beforeAll(async () => {
  browser = await openBrowser()
})
afterAll(() => browser?.close())
beforeEach(async () => {
  world = await buildFieldWorld()
  phone = await newPhone(browser)
  await signInOn(phone, world, 'coach')
  page = await pageOn(phone)
  return async () => {
    await phone.close()
    await world.close()
  }
})

describe('a sponsor', () => {
  it('practises without a network, sees what is not sent, and it counts for nothing once it is', async () => {
    await page.goto(`${world.url}/desk/sponsor`)
    await page.getByRole('heading', { name: /Amadi/, level: 3 }).waitFor()
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready
    })
    const address = `/api/soldiers/${world.candidateId}/status`
    const before = await world.app.office.get(address)
    await phone.setOffline(true)
    await page.getByRole('article').filter({ hasText: 'Amadi' }).getByRole('link', { name: 'Practise' }).click()
    await page.getByRole('button', { name: /open the day$/ }).click()
    await page.getByRole('button', { name: /^Start/ }).click()
    await page.getByText('practice', { exact: true }).waitFor()
    await finishSheet(page)
    await page.getByText(/^1 sheet on this phone, not yet sent/).waitFor()
    // The app opens without a network, and has the sheet.
    await page.goto(`${world.url}/`)
    await page.getByText('1 sheet on this phone, not yet sent').waitFor()
    await phone.route('**/api/sheets/*', (route) => route.abort())
    await phone.setOffline(false)
    await page.goto(`${world.url}/candidates/${world.candidateId}`)
    await page.getByText('closed, not yet sent').waitFor()
    await page.getByText('No practice sheet of this standard.').waitFor()
    expect(await axeViolations(page)).toEqual([])

    await phone.unroute('**/api/sheets/*')
    await page.getByRole('button', { name: 'Send now' }).click()
    await page.getByText('closed, not yet sent').waitFor({ state: 'detached' })
    await page.getByText('No practice sheet of this standard.').waitFor({ state: 'detached' })
    const of = (purpose: string) =>
      world.app.office.get<{ items: unknown[] }>(`/api/sheets?soldierId=${world.candidateId}&purpose=${purpose}`)
    expect((await of('practice')).items).toHaveLength(1)
    expect((await of('test')).items).toEqual([])
    expect(await world.app.office.get(address)).toEqual(before)
    await page.goto(`${world.url}/desk/sponsor`)
    await page.getByText('Every closed sheet is sent').waitFor()
    expect(await axeViolations(page)).toEqual([])
  })
})
