import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Unit } from '../../server/contract/soldiers/soldiers.ts'
import { axeViolations, openBrowser, type screens } from '../support/browser.ts'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { makeSoldier, makeUnit } from '../support/factories.ts'
import { openSignedIn } from './world.ts'

let test: TestApp
let browser: Browser
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-17T14:00:00Z', timeZone: 'America/New_York' })
  await makeUnit(test.office, { name: 'Calloway Point Color Guard', timeZone: null })
  browser = await openBrowser()
})
afterAll(async () => {
  await browser.close()
  await test.close()
})

const open = (address: string, screen?: keyof typeof screens): Promise<Page> =>
  openSignedIn(browser, test.app.listeningOrigin, 'office', address, screen)

const centre = async (what: Locator) => {
  const { x, y, width, height } = (await what.boundingBox())!
  return { x: x + width / 2, y: y + height / 2 }
}

describe('the tree of units', () => {
  const namesOf = (page: Page) =>
    page.locator('.unit-name b').evaluateAll((names) => names.map((name) => name.textContent))

  for (const screen of ['desktop', 'phone'] as const) {
    it(`puts its units in its own order by keys, buttons and dragging, for every picker, on a ${screen}`, async () => {
      const { items } = await test.office.get<{ items: Unit[] }>('/api/units')
      const top = items.find(({ parentId }) => parentId === null)!
      const team = await makeUnit(test.office, { name: `Team of the ${screen}`, kind: 'company', parentId: top.id })
      const made = ['Alpha', 'Bravo', 'Charlie']
      for (const name of made)
        await makeUnit(test.office, { name: `${name} ${screen}`, parentId: team, kind: 'platoon' })
      const page = await open('/units', screen)
      const inOrder = async () =>
        (await namesOf(page)).filter((name) => made.some((one) => name === `${one} ${screen}`))
      const becomes = (...names: string[]) => expect.poll(inOrder).toEqual(names.map((name) => `${name} ${screen}`))
      await becomes('Alpha', 'Bravo', 'Charlie')

      await page.getByRole('button', { name: `Change Alpha ${screen}` }).focus()
      await page.keyboard.press('Alt+ArrowDown')
      await becomes('Bravo', 'Alpha', 'Charlie')
      await page
        .getByRole('status')
        .filter({ hasText: `Alpha ${screen} is number two of three.` })
        .waitFor()
      await page.keyboard.press('Alt+ArrowDown')
      await becomes('Bravo', 'Charlie', 'Alpha')
      await page.getByRole('button', { name: `Alpha ${screen} Up` }).click()
      await becomes('Bravo', 'Alpha', 'Charlie')

      const handle = (name: string) => page.locator('tr', { hasText: `${name} ${screen}` }).locator('.unit-handle')
      const [from, onto] = [await centre(handle('Charlie')), await centre(handle('Bravo'))]
      await page.mouse.move(from.x, from.y)
      await page.mouse.down()
      await page.mouse.move(onto.x, onto.y, { steps: 4 })
      await page.locator('[data-drag=over]').waitFor()
      await page.mouse.up()
      await becomes('Charlie', 'Bravo', 'Alpha')
      expect(await axeViolations(page)).toEqual([])

      await page.goto(`${test.app.listeningOrigin}/stand`)
      const options = page.getByLabel('Unit').locator('option')
      await expect
        .poll(async () =>
          (await options.allTextContents()).map((text) => text.trim()).filter((text) => text.endsWith(screen)),
        )
        .toEqual([`Team of the ${screen}`, `Charlie ${screen}`, `Bravo ${screen}`, `Alpha ${screen}`])
      await page.context().close()
    })
  }

  it('moves a unit from a day on, and is told before with how many people', async () => {
    const { items } = await test.office.get<{ items: Unit[] }>('/api/units')
    const charlie = items.find(({ name }) => name === 'Charlie phone')!
    for (const name of ['one', 'two'])
      await makeSoldier(test.office, charlie.id, { givenName: name, from: '2026-01-01' })
    for (const screen of ['phone', 'desktop'] as const) {
      const page = await open('/units', screen)
      await page.getByRole('button', { name: 'Move Charlie phone' }).last().click()
      const under = screen === 'phone' ? 'Team of the desktop' : 'Team of the phone'
      await page.getByLabel('To be part of').selectOption({ label: `\u2003${under}` })
      await page.getByLabel('From this day on').fill(screen === 'phone' ? '2026-06-01' : '2026-06-10')
      await page.getByText(`Charlie phone goes on in ${under}, with two soldiers.`).waitFor()
      await page.getByText('What was before that day stays with Charlie phone').waitFor()
      expect(await axeViolations(page)).toEqual([])
      await page.getByRole('button', { name: 'Move it' }).click()
      await page.getByText('closed from').first().waitFor()
      await page.context().close()
    }
    const after = (await test.office.get<{ items: Unit[] }>('/api/units')).items
    const chain = after
      .filter(({ name }) => name === 'Charlie phone')
      .sort((a, b) => b.continues.length - a.continues.length)
    expect(chain.map(({ closedFrom }) => closedFrom)).toEqual([null, '2026-06-10', '2026-06-01'])
    const count = async (id: string, asOf: string) =>
      (await test.office.get<{ items: unknown[] }>(`/api/soldiers?unitId=${id}&asOf=${asOf}`)).items.length
    expect(await count(chain[2]!.id, '2026-05-31')).toBe(2)
    expect(await count(chain[1]!.id, '2026-06-09')).toBe(2)
    expect(await count(chain[0]!.id, '2026-06-10')).toBe(2)
  })

  it('calls its levels what it calls them, in headings, forms, findings and files', async () => {
    const page = await open('/units')
    await page.getByRole('button', { name: 'What levels are called' }).click()
    await page.getByRole('button', { name: 'wing, squadron, flight and element' }).click()
    await page.getByLabel('Level 3, one').fill('color flight')
    expect(await page.getByLabel('Level 3, more than one').inputValue()).toBe('color flights')
    await page.getByRole('button', { name: 'Take out level 4, element' }).click()
    await page.getByLabel('New level at the bottom').fill('party')
    await page.keyboard.press('Enter')
    expect(await page.getByLabel('Level 4, more than one').inputValue()).toBe('parties')
    expect(await axeViolations(page)).toEqual([])
    await page.getByRole('button', { name: 'Store the words' }).click()
    await page.getByRole('heading', { level: 1, name: /squadrons and .* color flights\.$/ }).waitFor()
    await page.getByRole('button', { name: 'Add below Bravo phone' }).click()
    expect(await page.getByLabel('Level').locator('option:checked').textContent()).toBe('Party')
    await page.getByText('Findings compare squadrons.').waitFor()

    await page.goto(`${test.app.listeningOrigin}/findings/time-to-certify`)
    await page.getByLabel('Curves').locator('option', { hasText: 'By squadron' }).waitFor({ state: 'attached' })
    const template = await test.office.tries('GET', '/api/import-templates/roster?format=csv')
    expect(String(template.body)).toContain('Squadron')
    await page.context().close()
  })
})
