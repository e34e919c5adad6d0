import fs from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { paths } from '../../web/paths.ts'
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

const PAGES = [
  paths.measures,
  paths.trend,
  paths.readings,
  paths.pairs,
  paths.quality,
  paths.sponsors,
  paths.graders,
  paths.timeToCertify,
  paths.forecasts,
]
const NARROWEST = { width: 320, height: 640 }
const THEMES = ['light', 'dark', 'sun'] as const
const LONG_AGO = 'to=2001-01-01'

const drawn = (page: Page) =>
  page.waitForFunction(() =>
    [...document.querySelectorAll<HTMLElement>('.plot canvas')].every(({ dataset }) => 'drawn' in dataset),
  )
const goTo = async (page: Page, address: string) => {
  await page.goto(world.url + address)
  await settled(page)
  await drawn(page)
}
/** Colours on the first drawing, so many of each. */
const coloursDrawn = (page: Page) =>
  page
    .locator('.plot canvas')
    .first()
    .evaluate((element) => {
      const canvas = element as HTMLCanvasElement
      const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height)
      const counts: Record<string, number> = {}
      for (let at = 0; at < data.length; at += 4) {
        if (data[at + 3] !== 255) continue
        const colour = `${data[at]},${data[at + 1]},${data[at + 2]}`
        counts[colour] = (counts[colour] ?? 0) + 1
      }
      return counts
    })
const saved = async (page: Page, name: RegExp) => {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name }).first().click(),
  ])
  return { name: download.suggestedFilename(), content: fs.readFileSync(await download.path()) }
}

describe('the findings', () => {
  it.each(['phone', 'desktop'] as const)(
    'on the %s are clean by axe in every theme, with data and without, and throw nothing',
    async (screen) => {
      const page = await openAsOffice(world, browser, paths.measures, { screen })
      const broken: string[] = []
      page.on('pageerror', (error) => broken.push(error.message))
      page.on('console', (message) => message.type() === 'error' && broken.push(message.text()))
      for (const path of PAGES) {
        for (const address of [path, `${path}?${LONG_AGO}`]) {
          await goTo(page, address)
          for (const theme of address === path ? THEMES : THEMES.slice(0, 1)) {
            await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
            for (const violation of await axeViolations(page)) broken.push(`${address}, ${theme}: ${violation}`)
          }
        }
      }
      await page.context().close()
      expect(broken).toEqual([])
    },
    180_000,
  )

  it('fit on 320 px', async () => {
    const page = await openAsOffice(world, browser, paths.measures, { screen: 'phone' })
    await page.setViewportSize(NARROWEST)
    const wide: string[] = []
    for (const path of PAGES) {
      await goTo(page, path)
      const width = await page.evaluate(() => document.documentElement.scrollWidth)
      if (width > NARROWEST.width) wide.push(`${path}: ${width}`)
    }
    await page.context().close()
    expect(wide).toEqual([])
  })

  it('load the chart library only where a chart is shown', async () => {
    const page = await openAsOffice(world, browser, '/')
    const loaded: string[] = []
    page.on('request', (request) => loaded.push(request.url()))
    const charts = () => loaded.filter((url) => /\/chart-js-[\w-]+\.js$/.test(url)).length
    await page.goto(`${world.url}/candidates`)
    await settled(page)
    expect(charts()).toBe(0)
    await goTo(page, paths.measures)
    expect(charts()).toBe(1)
    await page.context().close()
  })

  it('say so where the drawing cannot be loaded, and keep their figures', async () => {
    const page = await openAsOffice(world, browser, '/')
    await page.route(/\/chart-js-[\w-]+\.js$/, (route) => route.abort())
    await page.goto(world.url + paths.measures)
    await page.getByText('The drawing could not be loaded. Its figures stand in the list below.').first().waitFor()
    expect(await page.locator('.plot canvas').count()).toBe(0)
    expect(await page.locator('.table tbody tr').count()).toBeGreaterThan(0)
    expect(await axeViolations(page)).toEqual([])
    await page.context().close()
  })

  it('that cannot be drawn say that the page stopped, with a way on that brings it back', async () => {
    const page = await openAsOffice(world, browser, '/')
    await page.addInitScript(() => {
      const draw = HTMLCanvasElement.prototype.getContext
      if (sessionStorage.getItem('drawn')) return
      sessionStorage.setItem('drawn', 'not yet')
      HTMLCanvasElement.prototype.getContext = function fail(this: HTMLCanvasElement, ...asked: unknown[]) {
        if (this.closest('.plot')) throw new Error('No drawing on this device')
        return draw.apply(this, asked as never)
      } as typeof draw
    })
    await page.goto(world.url + paths.measures)
    await page.getByRole('heading', { name: 'This page stopped working.' }).waitFor()
    await page.getByRole('button', { name: 'Load again' }).click()
    await settled(page)
    await drawn(page)
    expect(await page.locator('.plot canvas').count()).toBeGreaterThan(0)
    await page.context().close()
  })

  it('share their filters, which stay in the address from one to the next', async () => {
    const page = await openAsOffice(world, browser, paths.measures)
    await page.getByLabel('Attempts').selectOption({ label: 'First tests' })
    await page.waitForURL(/attempts=first/)
    await page.getByLabel('Unit').selectOption({ value: world.platoonId })
    await page.getByRole('navigation', { name: 'Findings' }).getByRole('link', { name: 'Month by month' }).click()
    await page.waitForURL(/\/findings\/trend/)
    await settled(page)
    expect(Object.fromEntries(new URL(page.url()).searchParams)).toEqual({ attempts: 'first', unitId: world.platoonId })
    expect(await page.getByLabel('Attempts').inputValue()).toBe('first')
    await page.context().close()
  })

  it('are drawn in the colours of the theme, and in black on paper', async () => {
    const page = await openAsOffice(world, browser, paths.measures, { theme: 'light' })
    await drawn(page)
    // --ink of the light theme, of the dark one, and of print, as web/ui/tokens.css has them.
    expect(await coloursDrawn(page)).toHaveProperty('19,26,35')
    await page.evaluate(() => (document.documentElement.dataset.theme = 'dark'))
    await expect.poll(() => coloursDrawn(page)).toHaveProperty('238,241,244')
    await page.emulateMedia({ media: 'print' })
    await expect.poll(() => coloursDrawn(page)).toHaveProperty('0,0,0')
    await page.context().close()
  })

  it('leave no room that the drawing fills later', async () => {
    const page = await openAsOffice(world, browser, paths.measures)
    await drawn(page)
    const heights = await page
      .locator('.plot-canvas')
      .evaluateAll((frames) => frames.map((frame) => [frame.clientHeight, frame.querySelector('canvas')!.clientHeight]))
    expect(heights.length).toBeGreaterThan(0)
    for (const [frame, canvas] of heights) expect(canvas).toBe(frame)
    await page.context().close()
  })
})

describe('failing measures', () => {
  it('of two tests say that so few say little, with the faults on demand and the figures below', async () => {
    const page = await openAsOffice(world, browser, paths.measures)
    // The world's two sheets have their first five and first three minors NO-GO.
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toMatch(/ fails most: NO-GO in 2 of 2\.$/)
    await page.getByText(/So few tests say little\./).waitFor()
    const table = page.getByRole('table', { name: /^Minor measures/ })
    expect(await table.getByText('fewer than five tested').count()).toBe(13)
    expect(await table.getByText('2 of 2', { exact: true }).count()).toBe(3)
    await page.context().close()
  })

  it('can be kept as a table and as a picture', async () => {
    const page = await openAsOffice(world, browser, paths.measures)
    await drawn(page)
    const csv = await saved(page, /^CSV of the figures: Minor measures/)
    expect(csv.name).toBe('failing-measures.csv')
    const [head, first, ...others] = csv.content.toString('utf8').replace('\uFEFF', '').trim().split('\r\n')
    expect(head).toMatch(/^standard,measure,name,versions,no_go,tested,rate,low,high/)
    expect(first).toMatch(/,2,2,1,/)
    expect(others).toHaveLength(12)
    const png = await saved(page, /^PNG picture: Minor measures/)
    expect(png.name).toBe('failing-measures.png')
    expect(png.content.subarray(1, 4).toString()).toBe('PNG')
    await page.context().close()
  })
})

describe('sponsors', () => {
  it('are listed with one verdict each', async () => {
    const page = await openAsOffice(world, browser, paths.sponsors)
    const row = page.getByRole('row', { name: /SGT Ashdown, Mirela/ })
    expect(await row.textContent()).toMatch(/too few to tell anything/)
    expect(await page.getByRole('img', { name: /^Sponsors against the unit\./ }).count()).toBe(1)
    await page.context().close()
  })
})

describe('month by month', () => {
  it('opens a chart by its link', async () => {
    const page = await openAsOffice(world, browser, paths.trend)
    await page.getByRole('link', { name: 'Draw', exact: true }).click()
    await page.waitForURL(/chart=/)
    expect(await page.getByLabel('Chart').locator('option:checked').textContent()).toBe('Draw')
    await page.getByRole('heading', { level: 1, name: /^Draw: / }).waitFor()
    await page.context().close()
  })
})
