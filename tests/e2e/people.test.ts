import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SoldierDetail } from '../../server/contract/soldiers/soldiers.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { makeCertification, makeSoldier, makeStandard } from '../support/factories.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

let world: World
let browser: Browser
beforeAll(async () => {
  world = await buildWorld()
  const { office } = world.app
  const blade = { effectiveFrom: '2020-01-01', standards: [await makeStandard(office)] }
  await makeCertification(office, {
    ...blade,
    code: 'saber',
    title: 'Saber',
    arms: ['saber'],
    requiredOf: { grades: ['2LT'], units: null },
  })
  await makeCertification(office, {
    ...blade,
    code: 'blade',
    title: 'Blade',
    arms: ['sword'],
    requiredOf: { grades: ['SFC', 'SGT'], units: null },
  })
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

async function axeInEveryTheme(page: Page): Promise<string[]> {
  const found: string[] = []
  for (const theme of ['light', 'dark', 'sun']) {
    await page.evaluate((chosen) => {
      document.documentElement.dataset.theme = chosen
    }, theme)
    for (const violation of await axeViolations(page)) found.push(`${theme}: ${violation}`)
  }
  return found
}
const isTooWide = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth)

describe('people', () => {
  it('an NCO is promoted to officer with the arm that goes with it, and the past is corrected', async () => {
    const id = await makeSoldier(world.app.office, world.platoonId, {
      rosterNumber: '2001',
      grade: 'SFC',
      familyName: 'Larkin',
      givenName: 'Odile',
      arms: ['rifle', 'sword'],
    })
    const page = await openAsOffice(world, browser, '/people?grade=SFC')
    await page.getByRole('heading', { name: /soldiers are on strength today/ }).waitFor()
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.getByRole('link', { name: /Larkin/ }).click()
    await page.getByRole('heading', { name: /SFC Larkin belongs to 2nd Platoon/ }).waitFor()
    await page.getByRole('button', { name: 'Enter a change' }).click()
    await page.getByLabel('What changes').selectOption('promotion')
    await page.getByLabel('From', { exact: true }).fill('2026-06-01')
    await page.getByLabel('Grade').fill('2LT')
    await page.getByText('Those required of 2LT carry rifle, saber; until now rifle, sword.').waitFor()
    expect(await page.getByLabel('Arms').inputValue()).toBe('rifle, saber')
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.getByRole('button', { name: 'Enter it' }).click()
    await page.getByRole('heading', { name: /2LT Larkin belongs to/ }).waitFor()

    await page.getByRole('button', { name: 'Correct what was entered from 2026-06-01' }).click()
    await page.getByLabel('From', { exact: true }).fill('2026-05-01')
    await page.getByLabel('Why is it corrected?').fill('The order says May')
    await page.getByRole('button', { name: 'Correct it' }).click()
    await page.getByText('It is corrected, and everything that depends on it follows.').waitFor()
    const { periods } = await world.app.office.get<SoldierDetail>(`/api/soldiers/${id}`)
    expect(periods.map(({ from, grade, arms }) => [from, grade, arms])).toEqual([
      ['2020-01-01', 'SFC', ['rifle', 'sword']],
      ['2026-05-01', '2LT', ['rifle', 'saber']],
    ])

    await page.getByRole('button', { name: 'Enter an absence' }).click()
    await page.getByLabel('Kind').selectOption('course')
    await page.getByRole('button', { name: 'Enter the absence' }).click()
    await page.getByRole('button', { name: 'Ends today' }).waitFor()
    await page.goto(`${world.url}/people?strength=absent`)
    await page.getByRole('heading', { name: '1 soldier is absent today.' }).waitFor()
    await page.context().close()
  })

  it('a soldier is added, found to be there twice, merged, and taken apart again', async () => {
    const page = await openAsOffice(world, browser, '/people')
    await page.getByRole('button', { name: 'Add a soldier' }).click()
    await page.getByLabel('Roster number').fill('1007-2')
    await page.getByLabel('Family name').fill('Amadi')
    await page.getByLabel('Given name').fill('Rafe')
    await page.getByLabel('Grade').last().fill('PFC')
    await page.getByLabel('Arms').fill('sword')
    await page.getByLabel('Unit').last().selectOption({ label: '\u2003\u20032nd Platoon' })
    await page.getByLabel('Joined on').fill('2019-01-01')
    await page.getByRole('checkbox', { name: 'The list of grades has no PFC. It is right: add it.' }).check()
    await page.getByRole('button', { name: 'Add to the roster' }).click()
    await page.getByRole('heading', { name: /PFC Amadi belongs to/ }).waitFor()

    await page.goto(`${world.url}/people/${world.candidateId}`)
    await settled(page)
    await page.getByLabel('The other entry').fill('1007-2')
    await page.getByRole('option', { name: /Amadi/ }).click()
    await page.getByText('Nothing but the name belongs to the other entry.').waitFor()
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.getByLabel('How is it known that they are one?').fill('Same person, asked')
    await page.getByRole('button', { name: 'Merge the two entries' }).click()
    await page.getByText('1007-2 Amadi, Rafe was merged into this entry').waitFor()
    await page.getByText('Undo this merge').click()
    await page.getByLabel('Why are they two?').fill('Cousins')
    await page.getByRole('button', { name: 'Take them apart' }).click()
    await page.getByText('Merged and taken apart again').waitFor()

    await page.getByLabel('The other entry').fill('1003')
    await page.getByRole('option', { name: /Ashdown/ }).click()
    await page.getByText(/nobody coaches themselves/).waitFor()
    await page.context().close()
  })

  it('fits a phone, and says who must hold what', async () => {
    const page = await openAsOffice(world, browser, '/people', { screen: 'phone' })
    expect(await isTooWide(page)).toBe(false)
    await page.goto(`${world.url}/people/${world.candidateId}`)
    await settled(page)
    expect(await isTooWide(page)).toBe(false)
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.goto(`${world.url}/people/requirements`)
    await page.getByRole('heading', { name: /required certifications are held/ }).waitFor()
    await settled(page)
    expect(await isTooWide(page)).toBe(false)
    expect(await axeInEveryTheme(page)).toEqual([])
    await page.context().close()
  })
})

describe('somebody of the office who is a soldier, too', () => {
  it('is offered nothing about themselves that would be refused', async () => {
    await world.app.signedIn({
      name: 'clerk',
      roles: ['office', 'commander'],
      soldierId: world.candidateId,
      unitId: world.platoonId,
    })
    const page = await openAsOffice(world, browser, `/people/${world.candidateId}`, { account: 'clerk' })
    await page.getByText('About yourself and whom you coach somebody else of the office enters it.').waitFor()
    expect(await page.getByRole('button', { name: 'Enter a change' }).count()).toBe(0)
    await page.goto(`${world.url}/candidates/${world.candidateId}`)
    await settled(page)
    expect(await page.getByRole('button', { name: 'Name a sponsor' }).count()).toBe(0)
    expect(await page.getByRole('link', { name: 'Suspend, or lift a suspension' }).count()).toBe(0)
    await page.goto(`${world.url}/candidates/${world.soldierOf.grader}`)
    await settled(page)
    expect(await page.getByRole('button', { name: 'Name a sponsor' }).count()).toBe(1)
    expect(await page.getByRole('link', { name: 'Suspend, or lift a suspension' }).count()).toBe(1)
    await page.context().close()
  })
})
