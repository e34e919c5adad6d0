import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser, type screens } from '../support/browser.ts'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { makeSoldier } from '../support/factories.ts'
import { openSignedIn } from './world.ts'

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

const open = (address: string, screen?: keyof typeof screens): Promise<Page> =>
  openSignedIn(browser, test.app.listeningOrigin, 'office', address, screen)

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
    await page.getByRole('heading', { level: 1, name: 'One unit and one platoon.' }).waitFor()

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

  it('is told in the demo how to start one of its own beside it', async () => {
    const page = await open('/first-steps')
    await page.getByRole('heading', { level: 1, name: /steps/ }).waitFor()
    expect(await page.getByRole('heading', { name: 'Start your own unit' }).count()).toBe(0)
    await page.route('**/api/health', (route) =>
      route.fulfill({ json: { status: 'ok', demo: { accounts: ['office'], password: 'known to all' } } }),
    )
    await page.reload()
    const command = page.getByRole('textbox', { name: 'Linux and macOS' })
    const beside = Number(new URL(page.url()).port) + 1
    expect(await command.inputValue()).toBe(`REVIEWSTAND_DATA=own-unit REVIEWSTAND_DEMO=off PORT=${beside} npm start`)
    expect(await axeViolations(page)).toEqual([])
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

  it('confirms all grades and arms at once that came in with people', async () => {
    const { items } = await test.office.get<{ items: { id: string }[] }>('/api/units')
    await makeSoldier(test.office, items[0]!.id, { grade: 'FF', arms: ['axe'] })
    const page = await open('/arms-and-grades')
    await page.getByRole('button', { name: 'All are right' }).click()
    await page.getByRole('button', { name: 'Store the lists' }).click()
    await page.getByText('The lists are stored.').waitFor()
    expect(await test.office.get('/api/arms-and-grades')).toMatchObject({
      grades: [{ code: 'FF', confirmed: true }],
      arms: [{ code: 'axe', confirmed: true }],
    })
    await page.context().close()
  })

  it('begins a standard from common practice, and a certification from that', async () => {
    const page = await open('/standards')
    await page.getByLabel('Begin from').selectOption({ label: 'Rifle, standing manual' })
    await page.getByText('check it against your own manual').waitFor()
    await page.getByLabel('Title').fill('Our rifle manual')
    expect(await axeViolations(page)).toEqual([])
    await page.getByRole('button', { name: 'Make the draft' }).click()
    await page.getByRole('heading', { level: 1, name: 'Version 1 of Our rifle manual is a draft.' }).waitFor()
    const { items } = await test.office.get<{ items: { id: string }[] }>('/api/standards')
    await test.office.post(`/api/standards/${items[0]!.id}/publish`, undefined, 200)

    await page.goto(`${test.app.listeningOrigin}/standards`)
    await page.getByRole('textbox', { name: 'Certification' }).fill('Rifle')
    await page.getByLabel('Our rifle manual').check()
    await page.getByRole('button', { name: 'Add the certification' }).click()
    await page.getByRole('heading', { level: 1, name: 'Rifle requires Our rifle manual.' }).waitFor()
    await page.context().close()
  })
})
