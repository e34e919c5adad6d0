import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser } from '../support/browser.ts'
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
  sheetsOn,
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

/** The browser refuses whatever is to be kept, as it does when the disk is full. */
const fillUp = () =>
  page.evaluate(() => {
    const put = IDBObjectStore.prototype.put
    Object.assign(window, { makeSpace: () => Object.assign(IDBObjectStore.prototype, { put }) })
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('The quota has been exceeded.', 'QuotaExceededError')
    }
  })
const makeSpace = () => page.evaluate(() => (window as unknown as { makeSpace(): void }).makeSpace())

describe('a phone without space', () => {
  it('says so, loses nothing, and keeps all once there is space', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await markCorrect(page, 1, 2)
    await atCall(page, 3)
    await fillUp()
    await seen(page)
    await page.getByRole('button', { name: 'Correct', exact: true }).click()
    await page.getByText(/This phone has no space left/).waitFor()
    await atCall(page, 4)
    await markCorrect(page, 4, 5)
    expect(await axeViolations(page)).toEqual([])
    await makeSpace()
    await page.getByText(/This phone has no space left/).waitFor({ state: 'detached' })
    await page.reload()
    await atCall(page, 6)
  })

  it('with a network sends a closed sheet straight from the page, and knows it as sent once there is space', async () => {
    await page.addInitScript(() => {
      navigator.storage.persist = async () => Boolean(Object.assign(window, { isAsked: true }))
    })
    const isAskedToClearNothing = () => page.evaluate(() => 'isAsked' in window)
    await openDesk(page, world)
    expect(await isAskedToClearNothing()).toBe(false)
    await startSheet(page)
    expect(await isAskedToClearNothing()).toBe(true)
    await markCorrect(page, 1, 2)
    await fillUp()
    await finishSheet(page, 3)
    await page.getByText(/^Counted as attempt 1: GO/).waitFor()
    expect(await axeViolations(page)).toEqual([])
    expect((await world.sheet(world.bookings[0])).result.outcome).toBe('GO')
    expect(await sheetsOn(page)).toEqual([{ id: world.bookings[0], state: 'running' }])
    await makeSpace()
    await expect.poll(() => sheetsOn(page)).toEqual([{ id: world.bookings[0], state: 'stored' }])
  })
})
