import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { gradePaths, paths } from '../../web/paths.ts'
import { DOORWAYS, type Screen } from '../support/addresses.ts'
import { openBrowser } from '../support/browser.ts'
import { atDesk, seeEverything, signInAs } from './every-screen.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

const ROLES = ['office', 'administrator', 'commander', 'leader', 'sponsor', 'grader', 'soldier'] as const
type Role = (typeof ROLES)[number]

/** An answer that goes on as long as the page is open. */
const GOES_ON = /\/line\/changes$/

let world: World
let browser: Browser
let addresses: Map<Screen, string>
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
  const everything = await seeEverything(world, browser)
  addresses = everything.addresses
  await everything.session.close()
  const { app, platoonId, soldierOf } = world
  for (const role of ['administrator', 'commander', 'leader', 'sponsor', 'grader', 'soldier'] as const) {
    const unitId = role === 'commander' || role === 'leader' ? platoonId : null
    const soldierId = role === 'sponsor' || role === 'grader' || role === 'soldier' ? soldierOf[role] : null
    await app.signedIn({ name: role, roles: [role], unitId, soldierId })
  }
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

interface Watched {
  readonly page: Page
  /** Of all addresses so far. */
  readonly complaints: string[]
  readonly underWay: ReadonlySet<unknown>
}

/** A page that keeps what a browser would complain of, and knows what is still under way. */
async function watched(session: BrowserContext): Promise<Watched> {
  const page = await session.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  const complaints: string[] = []
  const underWay = new Set<unknown>()
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`))
  page.on('console', (message) => {
    // The window of a test has no service worker, which is the test's doing.
    if (/Service Worker registration blocked/.test(message.text())) return
    if (['error', 'warning'].includes(message.type())) complaints.push(`${message.type()}: ${message.text()}`)
  })
  page.on('response', (response) => {
    if (response.status() >= 400) {
      complaints.push(`${response.status()}: ${response.request().method()} ${response.url().replace(world.url, '')}`)
    }
  })
  page.on('request', (request) => !GOES_ON.test(request.url()) && underWay.add(request))
  page.on('requestfinished', (request) => underWay.delete(request))
  page.on('requestfailed', (request) => underWay.delete(request))
  return { page, complaints, underWay }
}

/** Until the page shows what it is for and asks for nothing more. */
async function quiet({ page, underWay }: Watched): Promise<void> {
  let asked: boolean
  do {
    await settled(page)
    asked = underWay.size > 0
    while (underWay.size > 0)
      await Promise.race([page.waitForEvent('requestfinished'), page.waitForEvent('requestfailed')])
    await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))))
  } while (asked || underWay.size > 0)
}

describe.each(ROLES)('as %s no page gives the browser anything to complain of', (role: Role) => {
  let session: BrowserContext
  let seen: Watched
  beforeAll(async () => {
    session = await atDesk(browser)
    await signInAs(world, session, role)
    seen = await watched(session)
  })
  afterAll(() => session?.close())

  const screens = (Object.keys(paths) as Screen[]).filter((screen) => !DOORWAYS.includes(screen))
  it.each([...screens.filter((screen) => screen !== 'grade'), ...Object.keys(gradePaths).slice(0, 1)])(
    '%s',
    async (screen) => {
      const { page, complaints } = seen
      complaints.length = 0
      const address = screen === 'desk' ? `/desk/${role}` : (addresses.get(screen as Screen) ?? gradePaths.start)
      await page.goto(world.url + address)
      await quiet(seen)
      const said = (await page.getByRole('heading', { level: 1 }).textContent()) ?? ''
      // What is out of one's sight is refused like what is not there, and the page says so.
      if (!said.includes('not yours to see')) expect(complaints).toEqual([])
    },
  )
})
