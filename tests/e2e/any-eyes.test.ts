import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { openBrowser } from '../support/browser.ts'
import { cutControls, outOfSight } from '../support/cut-controls.ts'
import {
  atCall,
  buildFieldWorld,
  type FieldWorld,
  finishSheet,
  markCorrect,
  NOW,
  newPhone,
  openDesk,
  pageOn,
  signInOn,
  startSheet,
} from './field-world.ts'
import { visitRunning, visitStart } from './grading-states.ts'

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

/** How a phone is held, and how large its owner writes. */
const HOLDS = [
  { width: 390, height: 844, text: 100 },
  { width: 390, height: 844, text: 130 },
  { width: 390, height: 844, text: 200 },
  { width: 320, height: 568, text: 100 },
  { width: 320, height: 568, text: 200 },
  { width: 844, height: 390, text: 100 },
  { width: 844, height: 390, text: 200 },
]

const MARKS = { '.mark-correct': 56, '.mark-incorrect': 56, '.call-all': 56, '.majors .cease': 48 }

/** What a grader needs while a command is carried out, without scrolling. */
const AT_ONCE = ['.call-command > span > b', '.mark-correct', '.mark-incorrect', '.majors .cease']
const WITH_MARKS = ['call', 'present', 'run']

const hold = async ({ width, height, text }: (typeof HOLDS)[number]) => {
  await page.setViewportSize({ width, height })
  await page.evaluate((size) => Object.assign(document.documentElement.style, { fontSize: `${size}%` }), text)
  // As a call comes: nothing of it scrolled yet.
  await page.evaluate(() => {
    for (const part of [document.scrollingElement, document.querySelector('.call')]) part?.scrollTo(0, 0)
  })
}

/** What is wrong with a state in any hold; a picture of each where they are asked for. */
const faultsOf = async (state: string): Promise<string[]> => {
  const found: string[] = []
  for (const held of HOLDS) {
    await hold(held)
    const name = `${state}-${held.width}-${held.text}`
    if (process.env.SHOTS) await page.screenshot({ path: `${process.env.SHOTS}/${name}.png` })
    if (await page.evaluate(() => document.documentElement.scrollWidth > innerWidth))
      found.push(`${name}: wider than the window`)
    const unseen = WITH_MARKS.includes(state) ? await outOfSight(page, AT_ONCE) : []
    found.push(...unseen.map((one) => `${name}: ${one} has to be scrolled to`))
    found.push(...(await cutControls(page, { least: 44, larger: MARKS })).map((one) => `${name}: ${one}`))
  }
  await hold(HOLDS[0]!)
  return found
}

describe('the running sheet in any hand and for any eyes', () => {
  it('has every control in reach, whole and large enough in every state', async () => {
    const found: string[] = []
    const visit = async (state: string) => {
      found.push(...(await faultsOf(state)))
    }
    await openDesk(page, world)
    await visit('desk')
    await page.getByRole('link', { name: 'Somebody without a booking' }).click()
    await visitStart(page, visit)
    await visitRunning(page, visit)
    expect(found).toEqual([])
  })

  it('has them where the server did not take the sheet as well', async () => {
    await openDesk(page, world)
    await page.getByRole('link', { name: 'Somebody without a booking' }).click()
    await visitStart(page, async () => {}, { rosterNumber: '1099', familyName: 'Nobody-of-this-number' })
    await markCorrect(page, 1, 39)
    await page.getByRole('button', { name: /close the sheet/ }).click()
    await page.getByText(/did not take this sheet/).waitFor()
    const unknown = await faultsOf('refused')

    // The same booking on another phone, at another moment: else both would send one and the same sheet.
    await page.clock.setFixedTime(new Date(Date.parse(NOW) + 20_000))
    await openDesk(page, world)
    await phone.setOffline(true)
    await startSheet(page)
    const other = await newPhone(browser)
    await signInOn(other, world)
    const there = await pageOn(other)
    await openDesk(there, world)
    await startSheet(there)
    await finishSheet(there)
    await there.getByText(/^Counted as attempt 1/).waitFor()
    await other.close()
    await finishSheet(page)
    await phone.setOffline(false)
    await page.getByRole('button', { name: /^It is the same test twice/ }).waitFor()
    expect([...unknown, ...(await faultsOf('taken'))]).toEqual([])
  })

  it('writes the command and what is looked at for arm’s length, and always shows the command of execution', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await markCorrect(page, 1, 5)
    await atCall(page, 6)
    for (const held of HOLDS) {
      await hold(held)
      const execution = page.locator('.call-command > span > b')
      const { y, height } = (await execution.boundingBox())!
      const area = (await page.locator('.call').boundingBox())!
      // The box of bold words is some pixels higher than its line, and grows with the text.
      const over = (6 * held.text) / 100
      expect([held, y >= area.y - over, y + height <= area.y + area.height + over]).toEqual([held, true, true])
      const sizes = await page.evaluate(() =>
        ['.call-command:last-child > span > b', '.call-look', '.call-faults .button'].map((one) =>
          Number.parseFloat(getComputedStyle(document.querySelector(one)!).fontSize),
        ),
      )
      expect([held, sizes[0]! >= 28, sizes[1]! >= 18, sizes[2]! >= 18]).toEqual([held, true, true, true])
    }
    // What does not fit is announced.
    await hold(HOLDS[0]!)
    await page.getByRole('button', { name: /^\d more faults/ }).waitFor()
    // A short call is written larger.
    const size = () =>
      page
        .locator('.call-look')
        .first()
        .evaluate((list) => Number.parseFloat(getComputedStyle(list).fontSize))
    const long = await size()
    await markCorrect(page, 6, 26)
    await atCall(page, 27)
    expect(await size()).toBeGreaterThan(long)
    expect(await page.getByRole('button', { name: /more faults/ }).count()).toBe(0)
  })

  it('keeps the longest names within two lines', async () => {
    const name = 'Wolfeschlegelsteinhausenbergerdorff-Featherstonehaugh '.repeat(2).trim().slice(0, 100)
    await openDesk(page, world)
    await startSheet(page)
    await page.evaluate((longest) => {
      document.querySelector('.grade-who bdi')!.textContent = `SFC ${longest}`
      document.querySelector('.grade-kept')!.textContent = '12 sheets on this phone, not yet sent: sign in to send them'
      document.querySelector('.grade-kept')!.classList.remove('is-quiet')
    }, name)
    for (const held of HOLDS) {
      await hold(held)
      const { height } = (await page.locator('.grade-head').boundingBox())!
      expect([held, height <= 62 * (held.text / 100)]).toEqual([held, true])
    }
  })
})
