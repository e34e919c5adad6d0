import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { putSheet } from '../support/factories.ts'
import { outcomeOnly } from '../support/sheet-body.ts'
import {
  atCall,
  buildFieldWorld,
  type FieldWorld,
  finishSheet,
  markCorrect,
  newPhone,
  openDesk,
  pageOn,
  seen,
  signInOn,
  startSheet,
} from './field-world.ts'

let browser: Browser
let world: FieldWorld
let phone: BrowserContext
let page: Page
beforeAll(async () => {
  browser = await openBrowser()
})
afterAll(() => browser?.close())
beforeEach(async () => {
  world = await buildFieldWorld()
  phone = await newPhone(browser)
  await signInOn(phone, world)
  page = await pageOn(phone)
  return async () => {
    await phone.close()
    await world.close()
  }
})

const shot = (name: string) =>
  process.env.SHOTS ? page.screenshot({ path: `${process.env.SHOTS}/${name}.png` }) : Promise.resolve()

const SIZES = [
  { width: 390, height: 844 },
  { width: 320, height: 568 },
]

/** What axe-core finds in each theme, and what is wider than a narrow phone, with the name of the state it is found in. */
const faultsIn = async (state: string): Promise<string[]> => {
  const found: string[] = []
  for (const theme of ['dark', 'sun', 'light']) {
    await page.evaluate((chosen) => Object.assign(document.documentElement.dataset, { theme: chosen }), theme)
    found.push(...(await axeViolations(page)).map((one) => `${state}, ${theme}: ${one}`))
    for (const size of SIZES) {
      if (theme !== 'light' && !process.env.SHOTS) continue
      await page.setViewportSize(size)
      if (await page.evaluate(() => document.documentElement.scrollWidth > innerWidth)) {
        found.push(`${state}: wider than ${size.width}`)
      }
      await shot(`${state}-${theme}-${size.width}`)
    }
    await page.setViewportSize(SIZES[0]!)
  }
  return found
}

describe('a grade sheet on the phone', () => {
  it('goes from the day’s list through all calls to a counted sheet, and nothing in any state is out of reach', async () => {
    const found: string[] = []
    await openDesk(page, world)
    found.push(...(await faultsIn('desk')))
    await page.getByRole('link', { name: 'Start', exact: true }).first().click()
    await page.getByRole('button', { name: /open the day$/ }).waitFor()
    found.push(...(await faultsIn('cautions')))
    await page.getByRole('button', { name: /open the day$/ }).click()
    await page.getByRole('button', { name: /start the test/ }).waitFor()
    found.push(...(await faultsIn('start')))
    await page.getByRole('button', { name: /start the test/ }).click()
    await atCall(page, 1)
    found.push(...(await faultsIn('call')))
    await markCorrect(page, 1, 5)
    // A reading outside its band marks the trial; it can be overridden with a reason.
    await atCall(page, 6)
    await page.getByRole('button', { name: /^measure Height of the tip/ }).click()
    await page.getByRole('textbox', { name: /^Height of the tip/ }).fill('3.5')
    await page.getByText(/^too low/).waitFor()
    await page.getByRole('button', { name: /Blade angled in toward the leg/ }).click()
    found.push(...(await faultsIn('reading')))
    await page.getByRole('button', { name: 'Correct', exact: true }).click()
    found.push(...(await faultsIn('override')))
    await page.getByRole('button', { name: 'Ground uneven' }).click()
    await atCall(page, 7)
    await page.getByRole('button', { name: 'Cease' }).click()
    await page.getByRole('heading', { name: 'CEASE' }).waitFor()
    found.push(...(await faultsIn('ceased')))
    await page.getByRole('button', { name: /go on with the test/ }).click()
    await page.getByRole('button', { name: /^All calls/ }).click()
    found.push(...(await faultsIn('overview')))
    await page.getByRole('button', { name: /^2 / }).click()
    await atCall(page, 2)
    await seen(page)
    await page.getByRole('button', { name: 'Incorrect', exact: true }).click()
    await atCall(page, 7)
    await page.getByRole('button', { name: 'More', exact: true }).click()
    await page.getByLabel('Notes on the sheet').fill('Wind from the west.')
    found.push(...(await faultsIn('more')))
    await page.getByRole('button', { name: 'Back to the sheet' }).click()
    await page.getByRole('button', { name: /Ceremonial composure/ }).click()
    found.push(...(await faultsIn('major')))
    await page.getByRole('button', { name: 'It stays GO' }).click()
    await markCorrect(page, 7, 35)
    await atCall(page, 36)
    found.push(...(await faultsIn('run')))
    await markCorrect(page, 36, 39)
    await page.getByRole('button', { name: /close the sheet/ }).waitFor()
    found.push(...(await faultsIn('closing')))
    await page.getByRole('button', { name: /close the sheet/ }).click()
    await page.getByText(/^Counted as attempt 1: GO/).waitFor()
    found.push(...(await faultsIn('closed')))
    expect(found).toEqual([])

    const stored = await world.sheet(world.bookings[0])
    expect(stored).toMatchObject({
      state: 'counted',
      candidateId: world.candidateId,
      sponsorId: world.sponsorId,
      graderId: world.graderId,
      testDayId: world.testDayId,
      notes: 'Wind from the west.',
      result: { outcome: 'GO', go: 13 },
    })
    expect(stored.pauses).toHaveLength(1)
    expect(stored.minors.find(({ code }) => code === 'return')?.trials).toEqual(['incorrect', 'correct', 'correct'])
    expect(stored.minors.find(({ code }) => code === 'present-from-carry')).toMatchObject({
      faults: [{ trial: 1, code: 'flare-in' }],
      readings: [{ trial: 1, gauge: 'tip-height', value: '3.5', override: 'Ground uneven' }],
    })
  })

  it('that is held says why in words, with titles for codes, with and without the network', async () => {
    const { candidateId, sponsorId, graderId } = world
    const failed = { ...outcomeOnly('NO-GO'), majors: [], minors: [] }
    const conditions = { uniform: true, equipment: true, sponsorPresent: true }
    await putSheet(world.app.office, {
      ...{ standard: 'sword-saber-standing', standardVersion: 1, arm: 'sword', candidateId, sponsorId, graderId },
      ...{ startedAt: '2026-06-15T09:00:00Z', finishedAt: '2026-06-15T09:40:00Z', conditions, ...failed },
    })
    await openDesk(page, world)
    await startSheet(page)
    await finishSheet(page)
    const why = page.locator('.held-why')
    await why.waitFor()
    expect(await why.textContent()).toMatch(/^The retest for Sword was allowed from /)
    await shot('held')
    await phone.setOffline(true)
    await page.reload()
    await why.waitFor()
    expect(await why.textContent()).toMatch(/^The retest for [Ss]word was allowed from /)
  })

  it('ends at once with a major NO-GO that was asked once more, and takes it back', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await markCorrect(page, 1, 3)
    await atCall(page, 4)
    const end = async () => {
      await page.getByRole('button', { name: /^Ceremonial composure/ }).click()
      await page.getByRole('button', { name: /^Spoke or smiled/ }).click()
      await page.getByRole('button', { name: 'NO-GO: end the test' }).click()
      await page.getByText('Ceremonial composure: NO-GO after call 3.').waitFor()
    }
    await end()
    await page.getByRole('button', { name: /^Ceremonial composure/ }).click()
    await page.getByRole('button', { name: /^Take the NO-GO back/ }).click()
    await atCall(page, 4)
    await page.getByRole('button', { name: /^Ceremonial composure/ }).click()
    await page.getByRole('button', { name: /^Spoke or smiled/ }).click()
    await page.getByRole('button', { name: 'It stays GO' }).click()
    await end()
    await page.getByRole('button', { name: /close the sheet/ }).click()
    await page.getByText(/^Counted as attempt 1: NO-GO/).waitFor()
    const { majors, result } = await world.sheet(world.bookings[0])
    expect(majors).toMatchObject([{ mark: null }, { code: 'composure', mark: 'NO-GO', atCall: 3, faults: ['talked'] }])
    expect(result).toMatchObject({ ending: 'stopped', outcome: 'NO-GO', notTested: 12 })
  })

  it('ends void after a cease, with its reason', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await markCorrect(page, 1, 2)
    await page.getByRole('button', { name: 'Cease' }).click()
    await page.getByRole('button', { name: 'End the test void' }).click()
    await page.getByRole('button', { name: 'Injury' }).click()
    await page.getByText('Void: injury.').waitFor()
    await page.getByRole('button', { name: /close the sheet/ }).click()
    await page.getByText('Stored: void, no attempt.').waitFor()
    expect(await world.sheet(world.bookings[0])).toMatchObject({ void: { kind: 'injury' }, pauses: [{ to: null }] })
  })

  it('is graded whole by keyboard', async () => {
    await openDesk(page, world)
    await startSheet(page)
    const keys = page.keyboard
    for (let call = 1; call <= 39; call++) {
      await atCall(page, call)
      await seen(page)
      if (call === 1) {
        await keys.press('a')
        await keys.press('0')
      } else if (call === 6) {
        await keys.press('=')
        await keys.type('30')
        await keys.press('Enter')
        await keys.press('1')
      } else await keys.press('1')
    }
    const close = page.getByRole('button', { name: /close the sheet/ })
    await close.waitFor()
    await keys.press('ArrowLeft')
    await atCall(page, 39)
    await seen(page)
    await keys.press('Backspace')
    await keys.press('1')
    await keys.press('Shift+C')
    await page.getByRole('heading', { name: 'CEASE' }).waitFor()
    await keys.press('Enter')
    await close.waitFor()
    for (let tabs = 0; tabs < 20 && !(await close.evaluate((button) => button === document.activeElement)); tabs++) {
      await keys.press('Tab')
    }
    await keys.press('Enter')
    await page.getByText(/^Counted as attempt 1: GO/).waitFor()
    const { minors } = await world.sheet(world.bookings[0])
    expect(minors[0]).toMatchObject({ trials: ['incorrect', 'correct', 'correct'], faults: [{ trial: 1 }] })
    expect(minors[2]?.readings).toEqual([{ trial: 1, gauge: 'present-angle', value: '30', override: null }])
  })

  it('serves practice of a sponsor with the same sheet', async () => {
    await phone.clearCookies()
    await signInOn(phone, world, 'coach')
    await page.goto(`${world.url}/grade/start?coached=${world.candidateId}`)
    await page.getByRole('button', { name: /open the day$/ }).click()
    await page.getByRole('button', { name: 'Start practice' }).click()
    await finishSheet(page)
    await page.getByText('Stored as practice: GO. It enters no figure.').waitFor()
    const id = new URL(page.url()).pathname.split('/').at(-1)!
    expect(await world.sheet(id)).toMatchObject({ purpose: 'practice', state: 'counted', graderId: world.sponsorId })
  })

  it('needs no scrolling to mark at 390 by 844, and no sideways scrolling at 320', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await markCorrect(page, 1, 5)
    for (const size of SIZES) {
      await page.setViewportSize(size)
      for (const name of ['Correct', 'Incorrect', 'Cease']) {
        const box = await page.getByRole('button', { name, exact: true }).boundingBox()
        expect(box!.y + box!.height).toBeLessThanOrEqual(size.height)
        expect(box!.x + box!.width).toBeLessThanOrEqual(size.width)
        expect(box!.height).toBeGreaterThanOrEqual(44)
      }
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    }
  })
})
