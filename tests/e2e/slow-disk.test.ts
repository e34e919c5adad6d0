import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { openBrowser } from '../support/browser.ts'
import {
  atCall,
  buildFieldWorld,
  type FieldWorld,
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

interface SlowWindow {
  /** Lets all that waits go to the disk, and whatever comes. */
  goOn(): void
}

/** From now on nothing reaches the disk until it is let, as on a phone that is busy with something else. */
const holdDisk = () =>
  page.evaluate(() => {
    let isHeld = true
    const commit = IDBTransaction.prototype.commit
    IDBTransaction.prototype.commit = function (this: IDBTransaction) {
      const store = this.objectStore(this.objectStoreNames[0]!)
      const go = () => {
        if (isHeld) store.count().onsuccess = go
        else commit.call(this)
      }
      go()
    }
    const goOn = () => {
      IDBTransaction.prototype.commit = commit
      isHeld = false
    }
    Object.assign(window, { goOn })
  })
const letGo = () => page.evaluate(() => (window as unknown as SlowWindow).goOn())

/** Where everything that can be pressed stands. */
const places = () =>
  page
    .locator('.grade-field button:visible, .grade-field input:visible')
    .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON()))

/** The same, once what is counted and scrolled has come to rest. */
const placesAtRest = async () => {
  for (let before = await places(); ; ) {
    await page.evaluate(async () => {
      for (let frame = 0; frame < 5; frame++) await new Promise(requestAnimationFrame)
    })
    const after = await places()
    if (JSON.stringify(after) === JSON.stringify(before)) return after
    before = after
  }
}

const toMeasuredCall = async () => {
  await openDesk(page, world)
  await startSheet(page)
  await markCorrect(page, 1, 5)
  await atCall(page, 6)
  await seen(page)
  await page.getByRole('button', { name: /^measure Height of the tip/ }).click()
}
const height = () => page.getByRole('textbox', { name: /^Height of the tip/ })

describe('a phone whose disk is slow', () => {
  it('judges a mark by the reading as it was typed, not as it was kept last', async () => {
    await toMeasuredCall()
    await height().fill('3.5')
    await page.getByText(/^too low/).waitFor()
    await holdDisk()
    await height().fill('5')
    await page.keyboard.press('Enter')
    await page.keyboard.press('1')
    await letGo()
    await atCall(page, 7)
    await page.keyboard.press('ArrowLeft')
    await atCall(page, 6)
    await page.getByText('marked correct').waitFor()
  })

  it('asks why a mark stands against a reading that is not kept yet', async () => {
    await toMeasuredCall()
    await holdDisk()
    await height().fill('3.5')
    await page.keyboard.press('Enter')
    await page.keyboard.press('1')
    await page.getByRole('heading', { name: 'The reading says incorrect' }).waitFor()
    await letGo()
  })

  it.for([
    { width: 390, height: 844 },
    { width: 320, height: 568 },
    { width: 844, height: 390 },
  ])('says that saving is slow, and nothing moves: $width × $height', async (size) => {
    await page.setViewportSize(size)
    await toMeasuredCall()
    const fault = page.locator('.call-faults').getByRole('button', { name: /^Blade angled in toward the leg/ })
    await fault.click()
    await page.locator('[aria-pressed="true"]').waitFor()
    const before = await placesAtRest()
    expect(before.length).toBeGreaterThan(8)
    await holdDisk()
    await fault.click()
    await page.getByText('saving is slow').waitFor()
    await fault.click()
    expect(await placesAtRest()).toEqual(before)
    await letGo()
    await page.getByText('saving is slow').waitFor({ state: 'detached' })
    expect(await placesAtRest()).toEqual(before)
  })
})
