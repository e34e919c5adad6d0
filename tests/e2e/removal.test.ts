import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SoldierDetail } from '../../server/contract/soldiers/soldiers.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { makeSoldier } from '../support/factories.ts'
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

async function faults(page: Page): Promise<string[]> {
  const found: string[] = []
  for (const theme of ['light', 'dark', 'sun']) {
    await page.evaluate((chosen) => {
      document.documentElement.dataset.theme = chosen
    }, theme)
    for (const violation of await axeViolations(page)) found.push(`${theme}: ${violation}`)
  }
  const isTooWide = await page.evaluate(
    () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
  )
  return isTooWide ? [...found, 'too wide'] : found
}

/** Somebody who has left, with words about them, and a note about another soldier that names them. */
async function makeLeaver(rosterNumber: string): Promise<string> {
  const { office } = world.app
  const names = { rosterNumber, grade: 'SPC', familyName: 'Quillfeather', givenName: 'Zephyrine' }
  const id = await makeSoldier(office, world.platoonId, { ...names, arms: ['sword'] })
  const about = { certification: 'sword', reason: 'As ordered' }
  await office.post('/api/suspensions', { ...about, soldierId: id, from: '2026-03-01' })
  await office.post(`/api/soldiers/${id}/absences`, { from: '2026-03-01', through: '2026-03-09', kind: 'leave' })
  await office.post(`/api/soldiers/${id}/changes`, { from: '2026-04-01', left: 'separated' }, 200)
  return id
}

describe('removing the personal data of somebody who has left', () => {
  it.each(['desktop', 'phone'] as const)('from their page, on a %s, for good', async (screen) => {
    const number = `Q-${screen}`
    const id = await makeLeaver(number)
    const { sponsor } = world.soldierOf
    const noted = { standard: world.standard, on: '2026-05-01', note: `Coached Quillfeather before` }
    await world.app.office.post(`/api/soldiers/${sponsor}/reviews`, noted)
    const page = await openAsOffice(world, browser, `/people/${id}`, { screen })
    await page.getByRole('link', { name: 'Remove personal data' }).click()
    await page.getByRole('heading', { name: 'Remove the personal data of SPC Quillfeather for good?' }).waitFor()
    await page.getByText('Law and the policy of the unit come first').waitFor()
    await page.getByText('Reasons of suspensions').first().waitFor()
    await page.getByRole('link', { name: 'candidate 1' }).first().waitFor()
    await settled(page)
    expect(await faults(page)).toEqual([])

    await page.getByLabel('Why?').fill('Kept for as long as we must')
    await page.getByLabel('Their roster number').fill('another')
    await page.getByRole('button', { name: 'Remove the personal data for good' }).click()
    await page.getByText('This is not their roster number.').waitFor()
    await page.getByLabel('Their roster number').fill(number)
    await page.getByRole('button', { name: 'Remove the personal data for good' }).click()
    await page.getByRole('heading', { name: /^Soldier \d{4}: name and number were removed/ }).waitFor()
    await settled(page)
    expect(await page.getByText('Quillfeather').count()).toBe(0)
    expect(await page.getByRole('button', { name: 'Correct number or names' }).count()).toBe(0)
    expect(await faults(page)).toEqual([])
    expect(await world.app.office.get<SoldierDetail>(`/api/soldiers/${id}`)).toMatchObject({ familyName: 'Removed' })
    await page.goto(`${world.url}/people/${id}/remove`)
    await page.getByText('The personal data of this soldier is removed already.').waitFor()
    await page.context().close()
  })

  it('is not offered for somebody of the strength, and says what to do first', async () => {
    const page = await openAsOffice(world, browser, `/people/${world.candidateId}`)
    expect(await page.getByRole('link', { name: 'Remove personal data' }).count()).toBe(0)
    await page.goto(`${world.url}/people/${world.candidateId}/remove`)
    await page.getByText('Enter on the page of the soldier when they leave, first.').waitFor()
    expect(await page.getByRole('button', { name: 'Remove the personal data for good' }).count()).toBe(0)
    expect(await faults(page)).toEqual([])
    await page.context().close()
  })
})
