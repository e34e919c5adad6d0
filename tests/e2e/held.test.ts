import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SheetDetail } from '../../server/contract/sheets/sheets.ts'
import { openBrowser } from '../support/browser.ts'
import { secondPerson } from '../support/second-person.ts'
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

describe('a held sheet', () => {
  it('is counted with a reason, and every figure follows', async () => {
    await secondPerson(world.app)
    const page = await openAsOffice(world, browser, '/held', { account: 'second person' })
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('One sheet waits for a decision.')
    expect(await page.getByText('No sponsor is named.').isVisible()).toBe(true)
    await page.getByRole('button', { name: 'Count it' }).click()
    expect(await page.getByText('Say why first.').isVisible()).toBe(true)
    await page.getByLabel('Reason, kept with the sheet').fill('The sponsor was on leave; the platoon sergeant coached.')
    await page.getByRole('button', { name: 'Count it' }).click()
    await page.getByText('The sheet of CPL Brandt, Louisa counts now; the reason is kept with it.').waitFor()
    await page.getByRole('heading', { name: 'No sheet waits for a decision.' }).waitFor()
    const sheet = await world.app.office.get<SheetDetail>(`/api/sheets/${world.heldId}`)
    expect(sheet).toMatchObject({ state: 'counted', waived: ['no-sponsor'] })

    await page.getByRole('button', { name: 'All pages' }).click()
    await page.getByRole('link', { name: 'Candidates', exact: true }).click()
    await page.getByLabel('Roster number or name').fill('brandt')
    await page.getByRole('link', { name: 'CPL Brandt, Louisa' }).click()
    await page.getByRole('heading', { name: 'CPL Brandt is certified in Sword through 9 June 2027.' }).waitFor()
    await page.context().close()
  })
})
