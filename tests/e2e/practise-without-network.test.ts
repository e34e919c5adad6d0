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

/** The pages that the phone keeps. */
const pagesKept = (on: Page): Promise<string[]> =>
  on.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('reviewstand')
      request.onsuccess = () => resolve(request.result)
    })
    const request = database.transaction('pages').objectStore('pages').getAll()
    await new Promise((resolve) => {
      request.onsuccess = resolve
    })
    database.close()
    return (request.result as { page: string }[]).map(({ page: name }) => name).sort()
  })
const isKept = (name: string) => expect.poll(() => pagesKept(page), { timeout: 30_000 }).toContain(name)
const appIsHere = () =>
  page.evaluate(async () => {
    await navigator.serviceWorker.ready
  })

describe('without a network', () => {
  it('a sponsor opens desk and candidate as they were, and what is kept goes with signing out', async () => {
    const { candidateId, url } = world
    await page.goto(`${url}/desk/sponsor`)
    await page.getByRole('heading', { name: /Amadi/, level: 3 }).waitFor()
    await isKept('sponsor')
    await page.goto(`${url}/candidates/${candidateId}`)
    await page.getByRole('heading', { name: 'Certifications' }).waitFor()
    await isKept(`candidate ${candidateId}`)
    await appIsHere()
    await phone.setOffline(true)
    await page.goto(`${url}/`)
    await page.getByText(/^As of .*, kept on this phone\.$/).waitFor()
    const card = page.getByRole('article').filter({ hasText: 'Amadi' })
    await card.getByText(/17 Jun/).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.goto(`${url}/candidates/${candidateId}`)
    await page.getByRole('heading', { name: 'Certifications' }).waitFor()
    await page.getByText(/kept on this phone/).waitFor()
    await page.goto(`${url}/candidates/${candidateId}/day`)
    await page.getByRole('heading', { name: /Amadi/ }).first().waitFor()
    await page.goto(`${url}/candidates/${world.walkInId}`)
    await page.getByText('This page is not on this phone.').waitFor()

    await phone.setOffline(false)
    await page.goto(`${url}/desk/sponsor`)
    await page.getByRole('heading', { name: /Amadi/, level: 3 }).waitFor()
    await page.getByRole('button', { name: 'Menu' }).click()
    await page.getByRole('button', { name: 'coach' }).click()
    await page.getByRole('button', { name: 'Sign out' }).click()
    await page.getByLabel('Password').waitFor()
    expect(await pagesKept(page)).toEqual([])
  })

  it('a soldier opens their own record as it was', async () => {
    await world.app.signedIn({ name: 'amadi', roles: ['soldier'], soldierId: world.candidateId })
    await signInOn(phone, world, 'amadi')
    await page.goto(`${world.url}/`)
    await page.getByRole('heading', { name: 'Certifications' }).waitFor()
    await isKept(`candidate ${world.candidateId}`)
    await appIsHere()
    await phone.setOffline(true)
    await page.goto(`${world.url}/`)
    await page.getByText(/^As of .*, kept on this phone\.$/).waitFor()
    await page.getByRole('heading', { name: 'Certifications' }).waitFor()
    expect(await axeViolations(page)).toEqual([])
  })
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
