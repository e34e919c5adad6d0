import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Practice } from '../../server/contract/coaching/practices.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { cutControls } from '../support/cut-controls.ts'
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
    // Its page was never opened on this phone.
    await isKept(`candidate ${candidateId}`)
    await isKept(`candidate ${world.sponsorId}`)
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
    const strangerId = world.graderId
    await page.goto(`${url}/candidates/${strangerId}`)
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

describe('practice of chosen measures', () => {
  const tapped = async (name: 'Correct' | 'Incorrect', times = 1) => {
    for (let time = 0; time < times; time++) await page.getByRole('button', { name, exact: true }).click()
  }
  const begin = async () => {
    await page.getByRole('article').filter({ hasText: 'Amadi' }).getByRole('link', { name: 'Practise' }).click()
    const open = page.getByRole('button', { name: /open the day$/ })
    await open.or(page.getByText('Chosen measures')).first().waitFor()
    if (await open.isVisible()) await open.click()
    // What is to drill is chosen already: nothing is tested yet, so the first of the standard.
    await page.getByLabel('Chosen measures').waitFor()
    expect(await page.getByLabel('Chosen measures').isChecked()).toBe(true)
    const chosen = page.getByRole('checkbox', { checked: true })
    while ((await chosen.count()) > 0) await chosen.first().uncheck()
    await page.getByLabel('Return', { exact: true }).check()
    await page.getByLabel('Draw', { exact: true }).check()
    await page.getByRole('button', { name: 'Start practice' }).click()
    await page.getByRole('heading', { name: 'Draw', exact: true }).waitFor()
  }

  it('outlives the death of the phone, is closed at any time, sent once and later, and counts for nothing', async () => {
    await page.goto(`${world.url}/desk/sponsor`)
    await page.getByRole('heading', { name: /Amadi/, level: 3 }).waitFor()
    await appIsHere()
    const status = `/api/soldiers/${world.candidateId}/status`
    const before = await world.app.office.get(status)
    await phone.setOffline(true)
    await begin()
    await tapped('Correct', 3)
    await tapped('Incorrect')
    await page.getByText('3 of 4 correct').waitFor()
    const fault = page.getByRole('list', { name: 'Faults' }).getByRole('button').first()
    await fault.click()
    await page.getByRole('button', { name: 'Undo Draw 4: incorrect' }).click()
    await page.getByText('3 of 3 correct').waitFor()
    await tapped('Incorrect')
    await fault.click()
    await page.getByText('3 of 4 correct').waitFor()
    expect(await axeViolations(page)).toEqual([])
    expect(await cutControls(page, { least: 44, larger: { '.mark-correct': 56, '.mark-incorrect': 56 } })).toEqual([])
    const address = page.url()

    await page.close()
    page = await pageOn(phone)
    await page.goto(`${world.url}/`)
    await page.getByText('Practice on this phone').waitFor()
    await page
      .getByRole('link', { name: /Amadi/ })
      .and(page.locator(`[href*="${new URL(address).pathname}"]`))
      .click()
    await page.getByText('3 of 4 correct').waitFor()
    await page.getByRole('button', { name: 'Close' }).click()
    await page.getByText(/On this phone, not yet sent/).waitFor()
    await page.getByRole('heading', { name: /Amadi: 3 of 4 correct/ }).waitFor()
    expect(await axeViolations(page)).toEqual([])

    // The answer to the first try is lost: the second finds it stored.
    let sent = 0
    await phone.route('**/api/practices/*', async (route) => {
      sent += 1
      if (sent > 1) return route.continue()
      await route.fetch()
      await route.abort()
    })
    await phone.setOffline(false)
    await expect
      .poll(
        async () =>
          (await world.app.office.get<{ items: unknown[] }>(`/api/soldiers/${world.candidateId}/practices`)).items
            .length,
      )
      .toBe(1)
    await page.getByRole('button', { name: 'Send now' }).click()
    await page.getByText('Sent. It stands on the candidate’s page.').waitFor()
    expect(sent).toBe(2)
    const { items } = await world.app.office.get<{ items: Practice[] }>(`/api/soldiers/${world.candidateId}/practices`)
    expect(items.map(({ measures }) => measures.map(({ code, trials }) => [code, trials.length]))).toEqual([
      [['draw', 4]],
    ])
    expect(await world.app.office.get(status)).toEqual(before)
    const { items: sheets } = await world.app.office.get<{ items: unknown[] }>(
      `/api/sheets?soldierId=${world.candidateId}`,
    )
    expect(sheets).toEqual([])

    await page.goto(`${world.url}/candidates/${world.candidateId}`)
    await page.getByRole('heading', { name: 'Chosen measures' }).waitFor()
    await page.getByText(/Draw: 3 of 4 correct/).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.getByRole('button', { name: 'Delete', exact: true }).click()
    await page.getByRole('button', { name: 'Delete it' }).click()
    await page.getByRole('heading', { name: 'Chosen measures' }).waitFor({ state: 'detached' })
  })

  it('of which nothing was marked leaves nothing behind', async () => {
    await page.goto(`${world.url}/desk/sponsor`)
    await page.getByRole('heading', { name: /Amadi/, level: 3 }).waitFor()
    await begin()
    await page.getByRole('button', { name: 'Leave' }).click()
    await page.getByRole('heading', { name: /Amadi/, level: 3 }).waitFor()
    expect(await page.getByText('Practice on this phone').count()).toBe(0)
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
    await page.getByLabel('The whole standard, call by call').check()
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
