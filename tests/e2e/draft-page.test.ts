import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Standard } from '../../server/contract/standards/standards.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { shortStandard } from '../support/sheet-body.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

let world: World
let browser: Browser
let id: string
let count = 0
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
})
beforeEach(async () => {
  count += 1
  const body = shortStandard({ code: `draft-${count}`, title: 'Short draft' })
  ;({ id } = await world.app.office.post('/api/standards', body))
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

const open = (screen: 'desktop' | 'phone' = 'desktop') =>
  openAsOffice(world, browser, `/standards/${id}/draft`, { screen })
const part = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Parts of the standard' }).getByRole('button', { name })
const saved = (page: Page) => page.getByText('Saved', { exact: true }).waitFor()
const stored = () => world.app.office.get<Standard>(`/api/standards/${id}`)

describe('a draft', () => {
  it('says its faults where they are, keeps them through a reload, and saves once they are put right', async () => {
    const page = await open()
    await part(page, 'Halt').click()
    await page.getByLabel('Title', { exact: true }).fill('')
    await page.getByText('This must not be blank.').waitFor()
    await part(page, 'Rule').click()
    await page.getByLabel('Correct trials needed').fill('4')
    await page.getByText('No more can be needed than there are trials.').waitFor()
    await page.getByText('Kept on this device; 2 things to put right before it is saved.').waitFor()
    expect(await axeViolations(page)).toEqual([])
    expect((await stored()).minors[1]!.title).toBe('Halt')

    await page.reload()
    await settled(page)
    await page.getByText(/Kept on this device/).waitFor()
    await page.getByRole('button', { name: 'Show the first' }).click()
    await page.getByLabel('Correct trials needed').fill('3')
    await part(page, 'Without a title').click()
    await page.getByLabel('Title', { exact: true }).fill('Halt and stand')
    await saved(page)
    expect(await stored()).toMatchObject({
      minors: [{}, { code: 'halt', title: 'Halt and stand' }, {}],
      rule: { needed: 3 },
    })
    await page.context().close()
  })

  it('is undone and done again by keys, a field at a time', async () => {
    const page = await open()
    await page.getByLabel('Title', { exact: true }).fill('Other')
    await page.getByLabel('Task').fill('Stand.')
    await page.keyboard.press('Control+z')
    expect(await page.getByLabel('Task').inputValue()).toBe('')
    await page.keyboard.press('Control+z')
    expect(await page.getByLabel('Title', { exact: true }).inputValue()).toBe('Short draft')
    await page.keyboard.press('Control+Shift+z')
    await page.keyboard.press('Control+y')
    await saved(page)
    expect(await stored()).toMatchObject({ title: 'Other', task: 'Stand.' })
    await page.context().close()
  })

  it('has its parts as one stop of the Tab key, and its calls as another', async () => {
    const page = await open()
    const focused = () => page.evaluate(() => document.activeElement?.textContent?.trim() ?? '')
    const press = async (...keys: string[]) => {
      for (const key of keys) await page.keyboard.press(key)
      return focused()
    }
    await part(page, 'What it is').focus()
    expect(await press('ArrowDown', 'ArrowDown')).toBe('Ceremonial composure')
    expect(await press('End')).toBe('Compare and publish')
    expect(await press('ArrowDown')).toBe('Compare and publish')
    expect(await press('Home', 'ArrowUp')).toBe('What it is')
    const stops: string[] = []
    const nav = page.getByRole('navigation', { name: 'Parts of the standard' })
    while (await nav.evaluate((list) => list.contains(document.activeElement))) {
      stops.push(
        await page.evaluate(
          () =>
            (document.activeElement as HTMLInputElement).labels?.[0]?.textContent ??
            document.activeElement!.textContent ??
            '',
        ),
      )
      await page.keyboard.press('Tab')
    }
    expect(stops).toEqual(['What it is', 'New major measure', 'Add', 'New minor measure', 'Add'])

    await part(page, 'What it is').focus()
    await press('End', 'ArrowUp', 'Enter')
    await page.getByRole('heading', { level: 2, name: 'Order of calls' }).waitFor()
    // The part that is open is where the Tab key comes to from now on.
    expect(await nav.locator('[data-stop][tabindex="0"]').allTextContents()).toEqual(['Order of calls'])
    const calls = page.locator('[data-call]')
    expect(await calls.count()).toBe(9)
    expect(await page.locator('[data-call][tabindex="0"]').count()).toBe(1)
    await calls.first().focus()
    await press('End', 'Enter')
    expect(await calls.last().getAttribute('aria-expanded')).toBe('true')
    expect(await axeViolations(page)).toEqual([])
    await page.context().close()
  })

  it('that two people write lets the later one choose', async () => {
    const one = await open()
    const other = await open()
    await one.getByLabel('Title', { exact: true }).fill('First')
    await saved(one)
    await other.getByLabel('Title', { exact: true }).fill('Second')
    await other.getByText('Somebody else has changed this draft since you opened it').waitFor()
    expect(await axeViolations(other)).toEqual([])
    await other.getByRole('button', { name: 'Keep theirs' }).click()
    await saved(other)
    expect(await other.getByLabel('Title', { exact: true }).inputValue()).toBe('First')
    await other.getByRole('button', { name: 'Undo the last change' }).click()
    await saved(other)
    expect((await stored()).title).toBe('Second')
    await Promise.all([one, other].map((page) => page.context().close()))
  })

  it('has its calls dragged to another place, and one that says something of its own', async () => {
    const page = await open()
    await part(page, 'Order of calls').click()
    await page.locator('[data-call="0"]').dragTo(page.locator('[data-call="8"]'))
    await page.locator('[data-call="8"]').click()
    await page.getByLabel('Preparatory command').fill('Once more')
    await saved(page)
    expect((await stored()).calls.at(-1)).toEqual({ measure: 'draw', trial: 3, preparatory: 'Once more' })
    await page.context().close()
  })

  it('is played on the phone beside it, and shown on paper', async () => {
    const page = await open()
    await part(page, 'Draw').click()
    const preview = page.getByRole('complementary', { name: 'As a grader will have it' })
    await preview.getByRole('heading', { name: 'Draw, trial 1 of 3' }).waitFor()
    await page.getByLabel('Preparatory command', { exact: true }).fill('Draw by count')
    await preview.getByText('Draw by count').first().waitFor()
    await preview.locator('.grade:not([data-fresh])').waitFor()
    await preview.getByRole('button', { name: 'Correct', exact: true }).click()
    await preview.getByRole('heading', { name: 'Draw, trial 2 of 3' }).waitFor()
    await page.getByLabel('Starts from').pressSequentially('carry')
    await preview.getByRole('heading', { name: 'Draw, trial 2 of 3' }).waitFor()
    await preview.getByRole('button', { name: 'On paper' }).click()
    await preview.getByRole('heading', { name: 'Short draft: call list' }).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.context().close()
  })

  it('is practised on a phone, of which nothing is stored', async () => {
    const page = await open('phone')
    const { items: before } = await world.app.office.get<{ items: unknown[] }>('/api/sheets')
    await page.getByRole('link', { name: 'Practice test on this draft' }).click()
    for (let call = 1; call <= 9; call++) {
      await page.getByText(`Call ${call} of 9`, { exact: true }).waitFor()
      await page.locator('.grade:not([data-fresh])').waitFor()
      await page.getByRole('button', { name: call < 3 ? 'Incorrect' : 'Correct', exact: true }).click()
    }
    await page.getByRole('button', { name: 'I graded this: close the sheet' }).click()
    await page.getByText('nothing of it was stored').waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.getByRole('link', { name: 'Back to the draft' }).click()
    await page.getByRole('heading', { name: 'Version 1 of Short draft is a draft.' }).waitFor()
    expect((await world.app.office.get<{ items: unknown[] }>('/api/sheets')).items).toEqual(before)
    await page.context().close()
  })

  it('is written on a phone, too', async () => {
    const page = await open('phone')
    await page.getByText('Parts', { exact: true }).click()
    await page.getByLabel('New minor measure').fill('Half step')
    await page.keyboard.press('Enter')
    await part(page, 'Half step').click()
    await page.getByLabel('Faults, one a line').fill('Too long\nToo short')
    await saved(page)
    expect((await stored()).minors.at(-1)).toMatchObject({
      title: 'Half step',
      faults: [{ title: 'Too long' }, { title: 'Too short' }],
    })
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390)
    await page.context().close()
  })
})
