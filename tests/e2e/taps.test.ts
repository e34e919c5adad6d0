import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { openBrowser } from '../support/browser.ts'
import { atCall, buildFieldWorld, type FieldWorld, newPhone, openDesk, pageOn, seen, signInOn } from './field-world.ts'

let browser: Browser
let world: FieldWorld
let phone: BrowserContext
let page: Page
let taps = 0
beforeAll(async () => {
  browser = await openBrowser()
})
afterAll(() => browser?.close())
beforeEach(async () => {
  world = await buildFieldWorld()
  phone = await newPhone(browser)
  await signInOn(phone, world)
  page = await pageOn(phone)
  await openDesk(page, world)
  // The cautions are read once a day, not once a sheet.
  await page.goto(`${world.url}/grade/start`)
  await page.getByRole('button', { name: /open the day$/ }).click()
  await page.getByLabel('Roster number').waitFor()
  await page.goto(`${world.url}/desk/grader`)
  taps = 0
  return async () => {
    await phone.close()
    await world.close()
  }
})

const tap = async (role: 'button' | 'link', name: string | RegExp) => {
  await page.getByRole(role, { name, exact: true }).first().click()
  taps += 1
}
const start = async () => {
  await tap('link', 'Start')
  await tap('button', 'All in order: start the test')
  await atCall(page, 1)
}
const mark = async (name: string | RegExp) => {
  await seen(page)
  await tap('button', name)
}
const places = Array.from({ length: 39 }, (_, place) => place + 1)
/** Calls that are one of three running of one measure, by the first of them. */
const RUNNING = [6, 9, 12, 27, 30, 33, 36]

/** Marks every call from one on correct; what is called three times running in one tap. */
const markRest = async (from: number) => {
  for (const call of places.slice(from - 1)) {
    if (RUNNING.some((first) => call > first && call < first + 3 && first >= from)) continue
    await atCall(page, call)
    await mark(RUNNING.includes(call) ? 'All three correct' : 'Correct')
  }
}
const closeSheet = async (after: RegExp) => {
  await tap('button', 'I graded this: close the sheet')
  await page.getByText(after).first().waitFor()
}

describe('the taps of a whole test, from the list to the next candidate', () => {
  it('perfect: 29, of which every mark is of something seen', async () => {
    await start()
    await markRest(1)
    await closeSheet(/^Counted as attempt 1: GO/)
    await tap('link', 'Next candidate: CPL Nwosu')
    expect(taps).toBeLessThanOrEqual(30)
    expect(taps).toBe(29)
    const { minors } = await world.sheet(world.bookings[0])
    expect(minors.every(({ trials }) => trials.length === 3)).toBe(true)
  })

  it('minor faults: one more for each fault', async () => {
    await start()
    await tap('button', /Head moved$/)
    await mark('Incorrect')
    await atCall(page, 2)
    await tap('button', /Shoulders not square$/)
    await mark('Correct')
    await markRest(3)
    await closeSheet(/^Counted as attempt 1: GO/)
    expect(taps).toBe(30)
  })

  it('out of the band: a reading by two taps, and the mark that it makes confirmed by one', async () => {
    await start()
    for (const call of [1, 2, 3, 4, 5]) {
      await atCall(page, call)
      await mark('Correct')
    }
    await atCall(page, 6)
    await tap('button', /^measure Height of the tip/)
    const band = page.locator('.gauge-band')
    const { x, y, height } = (await band.boundingBox())!
    await page.touchscreen.tap(x + 3, y + height / 2)
    taps += 1
    await page.getByText(/^too low/).waitFor()
    await mark(/^Incorrect/)
    for (const call of [7, 8]) {
      await atCall(page, call)
      await mark('Correct')
    }
    await markRest(9)
    await closeSheet(/^Counted as attempt 1: GO/)
    expect(taps).toBe(32)
    const { minors } = await world.sheet(world.bookings[0])
    expect(minors[2]).toMatchObject({
      trials: ['incorrect', 'correct', 'correct'],
      readings: [{ gauge: 'tip-height' }],
    })
  })

  it('major NO-GO: three from the fault seen to the test ended', async () => {
    await start()
    await mark('Correct')
    await atCall(page, 2)
    await tap('button', /^Ceremonial composure/)
    await tap('button', 'Spoke or smiled')
    await tap('button', 'NO-GO: end the test')
    await closeSheet(/^Counted as attempt 1: NO-GO/)
    expect(taps).toBe(7)
  })

  it('correction: one tap takes the last step back, and says which', async () => {
    await start()
    await mark('Correct')
    await atCall(page, 2)
    await mark('Incorrect')
    await atCall(page, 3)
    const before = taps
    await tap('button', /^Undo call 2: Return, trial 1 of 3: incorrect/)
    await atCall(page, 2)
    await page.getByText('Taken back: Return, trial 1 of 3: incorrect').first().waitFor()
    await mark('Correct')
    await atCall(page, 3)
    expect(taps - before).toBe(2)
    // Two steps further back, as far as was gone.
    await tap('button', /^Undo call 2/)
    await atCall(page, 2)
    await tap('button', /^Undo call 1/)
    await atCall(page, 1)
    expect(await page.getByRole('button', { name: 'Undo' }).isDisabled()).toBe(true)
  })

  it('cease and void: three from "cease" to the reason on the sheet', async () => {
    await start()
    await tap('button', 'Cease')
    await tap('button', 'End the test void')
    await tap('button', 'Injury')
    await page.getByText('Void: injury.').waitFor()
    await closeSheet(/^Stored: void, no attempt/)
    expect(taps).toBe(6)
  })

  it('two taps at once are one mark, and the second one is seen not to act', async () => {
    await start()
    await seen(page)
    await page.evaluate(() => {
      const press = () => document.querySelector<HTMLElement>('.mark-correct')!.click()
      new MutationObserver((_, observer) => {
        if (!document.querySelector('.call-where')?.textContent?.startsWith('Call 2')) return
        observer.disconnect()
        press()
      }).observe(document.querySelector('.call-where')!, { characterData: true, subtree: true, childList: true })
      press()
    })
    await page.getByText('Too soon after the last tap: nothing marked').first().waitFor()
    await atCall(page, 2)
    await seen(page)
    // The next one, however soon after it, acts.
    await page.getByRole('button', { name: 'Correct', exact: true }).click()
    await atCall(page, 3)
  })
})
