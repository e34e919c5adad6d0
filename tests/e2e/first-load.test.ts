import { gzipSync } from 'node:zlib'
import type { Browser, Page, Request, Route } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openBrowser } from '../support/browser.ts'
import { signIn } from '../support/sign-in.ts'
import { buildWorld, NOW, type World } from './world.ts'

const MOST_SCRIPT = 150_000
const MOST_STYLE_AND_FONT = 60_000
/** html → what it names → the answers. */
/** Chances to pass, study sheets that are kept for later, who is proposed for posts, and the way out of an empty list. */
const COMPLETES =
  /^\/api\/(forecasts|study\/[^/]+|ceremonies\/[^/]+\/proposal)$|^\/assets\/(ways-to-steps|format-first-steps)-/
const MOST_WAVES = 2
/** Nothing more is asked for within this time: what is still to come waits for an answer. */
const QUIET_MS = 2_000

const DESKS = ['office', 'commander', 'leader', 'sponsor', 'grader', 'soldier', 'administrator'] as const

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

const isSettled = async (page: Page) =>
  (await page.locator('#main:not([aria-busy]) h1').count()) === 1 &&
  (await page.locator('[aria-busy=true]').count()) === 0

/** Opens a desk, answering what is asked for wave by wave, so that what waits for what shows whatever the speed. */
async function load(role: (typeof DESKS)[number], address: string) {
  const name = `first load of ${role}`
  const needsUnit = role === 'commander' || role === 'leader'
  const needsSoldier = role === 'sponsor' || role === 'grader' || role === 'soldier'
  await world.app.signedIn({
    name,
    roles: [role],
    ...(needsUnit && { unitId: world.platoonId }),
    ...(needsSoldier && { soldierId: world.soldierOf[role] }),
  })
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, serviceWorkers: 'block' })
  const page = await context.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  await signIn(page, world.url, name)
  let held: Route[] = []
  await page.route('**/*', async (route) => {
    if (route.request().resourceType() === 'document') await route.continue()
    else held.push(route)
  })
  const waves: string[][] = []
  const bodies = new Map<string, Promise<Buffer>>()
  page.on('requestfinished', (request: Request) => {
    bodies.set(
      request.url(),
      request.response().then((response) => response!.body()),
    )
  })
  await page.goto(world.url + address, { waitUntil: 'commit' })
  for (;;) {
    let seen = -1
    while (seen !== held.length) {
      seen = held.length
      await new Promise((resolve) => setTimeout(resolve, QUIET_MS))
    }
    if (held.length === 0 && (await isSettled(page))) break
    if (held.length === 0) continue
    const wave = held
    held = []
    const asked = wave.map((route) => new URL(route.request().url()).pathname)
    // What a desk that stands already is completed by hangs on what it shows, and keeps nothing back.
    if (!asked.every((path) => COMPLETES.test(path))) waves.push(asked)
    await Promise.all(wave.map((route) => route.continue()))
  }
  const sizes = await Promise.all(
    [...bodies].map(async ([url, body]) => ({ url, size: gzipSync(await body).length, raw: (await body).length })),
  )
  await context.close()
  const sum = (pattern: RegExp, pick: 'size' | 'raw' = 'size') =>
    sizes.filter(({ url }) => pattern.test(url)).reduce((total, one) => total + one[pick], 0)
  return { waves, script: sum(/\.js(\?|$)/), style: sum(/\.css(\?|$)/) + sum(/\.woff2(\?|$)/, 'raw') }
}

describe.each(DESKS)('the desk of the %s', (role) => {
  it('loads little, in two waves, and no charts that are not shown', async () => {
    const { waves, script, style } = await load(role, '/')
    console.log(`${role}: ${script} B of script, ${style} B of styles and fonts, ${waves.length} waves`)
    expect(waves.length, JSON.stringify(waves)).toBeLessThanOrEqual(MOST_WAVES)
    expect(waves.flat().filter((path) => /chart-js/.test(path))).toEqual([])
    expect(script).toBeGreaterThan(50_000)
    expect(script).toBeLessThanOrEqual(MOST_SCRIPT)
    expect(style).toBeLessThanOrEqual(MOST_STYLE_AND_FONT)
  })
})
