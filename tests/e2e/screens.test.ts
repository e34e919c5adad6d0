import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { paths } from '../../web/paths.ts'
import { DOORWAYS, type Screen } from '../support/addresses.ts'
import { bareNames } from '../support/bare-names.ts'
import { axeViolations, COLOUR_RULES, openBrowser, screens } from '../support/browser.ts'
import { makeSoldier } from '../support/factories.ts'
import { tabThrough } from '../support/tab-through.ts'
import { atDesk, seeEverything, signInAs } from './every-screen.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

let world: World
let browser: Browser
let session: BrowserContext
let addresses: Map<Screen, string>
let common: Watched
let doorway: BrowserContext | null = null
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
  ;({ session, addresses } = await seeEverything(world, browser))
  common = await watched(session)
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

/** By which rules. A theme is another set of colours and nothing else (tests/unit/web/tokens.test.ts). */
const THEMES = [
  ['light', undefined],
  ['dark', COLOUR_RULES],
  ['sun', COLOUR_RULES],
] as const
const NARROWEST = { width: 320, height: 640 }
const WIDEST = { width: 3840, height: 2160 }
/** Of the width of the widest screen, at least so much is made use of. */
const LEAST_USED = 0.45
/** Longer lines are lost on the way back to the next one. */
const LONGEST_LINE_EM = 110

/** Other views of some screens, which no path of their own tells of. */
const VIEWS: [name: string, address: () => string][] = [
  ['stand, for a ceremony', () => `/stand?ceremony=${world.ceremonyId}`],
  ['ceremonies, called off too', () => '/ceremonies?cancelled=with'],
  ['a path that is none', () => '/nowhere'],
]

interface Watched {
  readonly page: Page
  /** What breaks on it. */
  readonly broken: string[]
}

async function watched(of: BrowserContext): Promise<Watched> {
  const page = await of.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  const broken: string[] = []
  page.on('pageerror', (error) => broken.push(error.message))
  if (of === session) page.on('console', (message) => message.type() === 'error' && broken.push(message.text()))
  return { page, broken }
}

/** Opens a screen at the size of a desk: a doorway in a session of its own, all others one after another on one page. */
async function open(screen: Screen | null, address: string): Promise<Watched> {
  const standsAlone = screen !== null && DOORWAYS.includes(screen)
  if (standsAlone) doorway = await atDesk(browser)
  const on = standsAlone ? await watched(doorway!) : common
  await on.page.setViewportSize(screens.desktop)
  await on.page.goto('about:blank') // What is still said of the screen before comes until here.
  on.broken.length = 0
  await on.page.goto(world.url + address)
  await settled(on.page)
  return on
}

afterEach(async () => {
  await doorway?.close()
  doorway = null
})

/** Once the new size is laid out. */
const widthOf = (page: Page) =>
  page.evaluate(async () => {
    for (let frame = 0; frame < 2; frame++) await new Promise((resolve) => requestAnimationFrame(resolve))
    return document.documentElement.scrollWidth
  })

async function lookAt(screen: Screen | null, address: string): Promise<string[]> {
  const { page, broken } = await open(screen, address)
  for (const [theme, rules] of THEMES) {
    await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
    for (const violation of await axeViolations(page, rules)) broken.push(`${theme}: ${violation}`)
  }
  broken.push(...(await tabThrough(page)))
  await page.setViewportSize(screens.phone)
  for (const violation of await axeViolations(page)) broken.push(`phone: ${violation}`)
  await page.setViewportSize(NARROWEST)
  const narrow = await widthOf(page)
  if (narrow > NARROWEST.width) broken.push(`${narrow} px wide on ${NARROWEST.width} px`)
  await page.setViewportSize(WIDEST)
  const wide = await page.evaluate(() => {
    const main = document.querySelector('main')!
    const lines = [...main.querySelectorAll('p')].map(
      (each) => each.clientWidth / Number.parseFloat(getComputedStyle(each).fontSize),
    )
    return { share: main.clientWidth / innerWidth, longest: Math.max(0, ...lines) }
  })
  const standsAlone = screen !== null && DOORWAYS.includes(screen)
  if (wide.share < LEAST_USED && !standsAlone) broken.push(`a strip of ${Math.round(wide.share * 100)} % on 4K`)
  if (wide.longest > LONGEST_LINE_EM) broken.push(`a line of ${Math.round(wide.longest)} em on 4K`)
  return [...broken]
}

describe('every screen is clean by axe in every theme, fits 320 px and 4K, and is reached by keyboard', () => {
  it.each(Object.keys(paths) as Screen[])('%s', async (screen) => {
    expect(await lookAt(screen, addresses.get(screen)!)).toEqual([])
  })
  it.each(VIEWS)('%s', async (_name, address) => {
    expect(await lookAt(null, address())).toEqual([])
  })
})

describe('what is typed in a right-to-left script moves nothing beside it, sent or not', () => {
  it.each(Object.keys(paths) as Screen[])('%s', async (screen) => {
    const { page } = await open(screen, addresses.get(screen)!)
    for (const opener of await page.locator('main summary, main button[aria-expanded=false]').all()) {
      if (await opener.isVisible()) await opener.click()
    }
    const fields = 'main :is(input:not([type]), input[type=text], input[type=search], textarea):enabled'
    for (const field of await page.locator(fields).all()) {
      if (await field.isVisible()) await field.fill('כהן 7')
    }
    await settled(page)
    expect(await bareNames(page)).toEqual([])
  })
})

describe('a page that is not one’s own', () => {
  it('says so and offers nothing but the way to one’s desk', async () => {
    const soldierId = await makeSoldier(world.app.office, world.platoonId)
    await world.app.signedIn({ name: 'only a soldier', roles: ['soldier'], soldierId })
    const own = await atDesk(browser)
    await signInAs(world, own, 'only a soldier')
    const refused: string[] = []
    const offered: string[] = []
    for (const [screen, address] of addresses) {
      if (DOORWAYS.includes(screen)) continue
      const page = await own.newPage()
      await page.clock.setFixedTime(new Date(NOW))
      await page.goto(world.url + address)
      await settled(page)
      const answer = (await page.locator('h1').first().textContent()) ?? ''
      if (/not yours to see\.$|^The page “|^This is the desk of/.test(answer)) {
        refused.push(screen)
        const ways = 'main :is(button, input, select, textarea, a:not([href="/"]))'
        for (const way of await page.locator(ways).allTextContents()) {
          if (!/\bdesk\b/.test(way)) offered.push(`${screen}: ${way}`)
        }
      }
      await page.close()
    }
    await own.close()
    expect(offered).toEqual([])
    expect(refused).toEqual(expect.arrayContaining(['held', 'accounts', 'record', 'candidate']))
  })
})
