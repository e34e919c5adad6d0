import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
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

const NARROWEST = { width: 320, height: 640 }

/** Every screen there is, by what it is called here. */
const SCREENS: [name: string, address: () => string][] = [
  ['Overview', () => '/'],
  ['Who can stand', () => '/stand'],
  ['Who can stand, ceremony', () => `/stand?ceremony=${world.ceremonyId}`],
  ['Ceremonies', () => '/ceremonies?cancelled=with'],
  ['Ceremony', () => `/ceremonies/${world.ceremonyId}`],
  ['Ceremony, change', () => `/ceremonies/${world.ceremonyId}/edit`],
  ['Ceremony, roster', () => `/ceremonies/${world.ceremonyId}/roster`],
  ['Candidates', () => '/candidates'],
  ['Candidate', () => `/candidates/${world.candidateId}`],
  ['Grade sheet', () => `/sheets/${world.heldId}`],
  ['Enter a sheet', () => '/enter'],
  ['Held', () => '/held'],
  ['Retests', () => '/retests'],
  ['Failing measures', () => '/findings/measures'],
  ['Sponsors', () => '/findings/sponsors'],
  ['People', () => '/people'],
  ['Who must hold what', () => '/people/requirements'],
  ['Person', () => `/people/${world.candidateId}`],
  ['Terms', () => '/standards/terms/sword'],
  ['Standards', () => '/standards'],
  ['Standard', () => `/standards/${world.standard}`],
  ['Nothing here', () => '/nowhere'],
]

const goTo = async (page: Page, address: string) => {
  await page.goto(world.url + address)
  await settled(page)
}

const THEMES = ['light', 'dark', 'sun'] as const

it.each(['phone', 'desktop'] as const)(
  'every screen on the %s, in every theme, is clean by axe and throws nothing',
  async (screen) => {
    const page = await openAsOffice(world, browser, '/', { screen })
    const broken: string[] = []
    page.on('pageerror', (error) => broken.push(error.message))
    page.on('console', (message) => message.type() === 'error' && broken.push(message.text()))
    for (const [name, address] of SCREENS) {
      await goTo(page, address())
      for (const theme of THEMES) {
        await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
        for (const violation of await axeViolations(page)) broken.push(`${name}, ${theme}: ${violation}`)
      }
    }
    await page.context().close()
    expect(broken).toEqual([])
  },
  120_000,
)

it('no screen is wider than 320 px', async () => {
  const page = await openAsOffice(world, browser, '/', { screen: 'phone' })
  await page.setViewportSize(NARROWEST)
  const wide: string[] = []
  for (const [name, address] of SCREENS) {
    await goTo(page, address())
    const width = await page.evaluate(() => document.documentElement.scrollWidth)
    if (width > NARROWEST.width) wide.push(`${name}: ${width}`)
  }
  await page.context().close()
  expect(wide).toEqual([])
}, 60_000)

it('the sign-in page is clean by axe', async () => {
  const page = await openAsOffice(world, browser, '/sign-in')
  expect(await axeViolations(page)).toEqual([])
  await page.context().close()
})
