import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Soldier } from '../../server/contract/soldiers/soldiers.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

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

const FILE = [
  'Roster of the new platoon;;;;;',
  'Pers. no.;Surname;First name;Rank;Unit;Since',
  '2001;Vale;Kim;SGT;Calloway Point Ceremonial Battalion / B Company / 1st Platoon;3/4/2025',
  '2002;Orr;Lou;CPL;2nd Platoon;5/6/2025',
  '2003;Imrie;;CPL;2nd Platoon;5/6/2025',
].join('\n')

const choose = (page: Page, name: string, content: string) =>
  page.getByLabel('File to import').setInputFiles({ name, mimeType: 'text/csv', buffer: Buffer.from(content) })

describe('taking in a file', () => {
  it('goes from the file over its columns and dates to every row, and then into the record', async () => {
    const page = await openAsOffice(world, browser, '/import')
    await page.getByRole('heading', { name: 'Bring what is on paper and in spreadsheets.' }).waitFor()
    await choose(page, 'platoon.csv', FILE)
    await page.getByRole('heading', { name: '3 rows wait to be looked at.' }).waitFor()
    await page.getByLabel('Column for Roster number').selectOption({ label: 'Pers. no.' })
    await page.getByText('as you chose').first().waitFor()
    await page.getByLabel('How are the dates under “From” to be read?').selectOption({ label: 'The day comes first' })
    await page.getByRole('button', { name: 'Check every row' }).click()
    await page.getByRole('heading', { name: '2 rows can be stored, 1 cannot.' }).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.getByText('2 units will be added').click()
    await page.getByText('Somebody new needs a family name and a given name.').waitFor()
    await page.getByRole('button', { name: 'Refused 1' }).click()
    await expect.poll(() => page.url()).toContain('outcome=refused')
    await page.getByRole('button', { name: 'Store 2, leave 1 out' }).click()
    await page
      .getByRole('dialog')
      .getByText('It adds 2. One row stays out; it can be corrected and sent again.')
      .waitFor()
    await page.getByRole('dialog').getByRole('button', { name: 'Store it' }).click()
    await page.getByRole('heading', { name: '2 rows of the file are in the record.' }).waitFor()
    const download = page.waitForEvent('download')
    await page.getByRole('link', { name: 'The refused rows with why' }).click()
    expect((await download).suggestedFilename()).toBe('platoon - refused.csv')
    const { items } = await world.app.office.get<{ items: Soldier[] }>('/api/soldiers?q=Vale')
    expect(items).toMatchObject([{ rosterNumber: '2001', joined: '2025-04-03', grade: 'SGT' }])
    await settled(page)
    await page.context().close()
  })

  it('says what to do with a file that is none', async () => {
    const page = await openAsOffice(world, browser, '/import', { screen: 'phone' })
    await choose(page, 'picture.png', '\u0089PNG\r\n')
    await page.getByRole('alert').waitFor()
    expect(await page.getByRole('alert').textContent()).toMatch(/neither|not a spreadsheet|No row of the file/)
    await page.context().close()
  })
})
