import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { makeCertification, makeStandard, makeTestSetting, putSheet } from '../support/factories.ts'
import { times } from '../support/sheet-body.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

let world: World
let browser: Browser
let standard: string
beforeAll(async () => {
  world = await buildWorld()
  const { office } = world.app
  const setting = await makeTestSetting(office)
  standard = setting.standard
  await makeCertification(office, {
    code: 'both',
    title: 'Both',
    standards: [standard, await makeStandard(office)],
  })
  await putSheet(office, setting.sheet(times('2026-06-02')))
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

it('a new version is made, compared, tried out and published', async () => {
  const page = await openAsOffice(world, browser, `/standards/${standard}`)
  await page.getByRole('button', { name: 'Make a new version from this one' }).click()
  await page.getByRole('heading', { name: /Version 2 of Short standard is a draft/ }).waitFor()
  const part = (name: string) =>
    page.getByRole('navigation', { name: 'Parts of the standard' }).getByRole('button', { name, exact: true })
  await part('Compare and publish').click()
  await page.getByText('It tests the same in the same way.').waitFor()
  await part('What it is').click()
  await page.getByLabel('Takes effect on').fill('2026-06-10')
  await page.getByLabel('Tests under earlier versions').selectOption('false')
  await part('Rule').click()
  await page.getByLabel('Correct trials needed').fill('3')
  await page.getByLabel('New minor measure').fill('Half step')
  await page.keyboard.press('Enter')
  await part('Half step').focus()
  await page.keyboard.press('Alt+ArrowUp')
  expect(await axeInEveryTheme(page)).toEqual([])
  await part('Compare and publish').click()
  await page.getByText('Saved', { exact: true }).waitFor()
  await page.getByRole('cell', { name: 'Correct trials needed' }).waitFor()
  await page.getByRole('cell', { name: 'Half step' }).waitFor()
  await page.getByRole('button', { name: 'Show what it would change' }).click()
  await page.getByText(/1 standing would change on Wednesday 17 June/).waitFor()
  await page.getByText('Both: 1 from part way to no test yet').waitFor()
  expect(await axeInEveryTheme(page)).toEqual([])
  await page.getByRole('button', { name: /Publish version 2, in force from Wednesday 10 June/ }).click()
  await page.waitForURL(`${world.url}/standards/${standard}?version=2`)
  await settled(page)
  await page.getByRole('heading', { name: 'What differs from version 1' }).waitFor()
  await page.context().close()
})

it('new terms are tried out and entered', async () => {
  const page = await openAsOffice(world, browser, '/standards/terms/both', { screen: 'phone' })
  await page.getByRole('heading', { name: /Both requires/ }).waitFor()
  expect(await page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth)).toBe(
    false,
  )
  await page.getByLabel('Days to wait before a retest').fill('10')
  await page
    .getByText(/A NO-GO on Wednesday 17 June may be retested from .*27 June and is due by .*17 July\. As it is now:/)
    .waitFor()
  await page.getByLabel('Required of grades').fill('CPL')
  await page.getByRole('button', { name: 'Show what they would change' }).click()
  await page
    .getByText(/from required to not required/)
    .first()
    .waitFor()
  expect(await axeInEveryTheme(page)).toEqual([])
  await page.getByRole('button', { name: /Enter the terms, from Wednesday 17 June/ }).click()
  await page.getByText('Required of CPL.').waitFor()
  await page.context().close()
})
