import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest'
import { openBrowser } from '../support/browser.ts'
import {
  buildFieldWorld,
  type FieldWorld,
  finishSheet,
  markCorrect,
  newPhone,
  openDesk,
  pageOn,
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
  await page.addInitScript(watchWork)
  return async () => {
    await phone.close()
    await world.close()
  }
})

/** Counts, in the page, timers and frames that are still to come, and wake locks that are held. */
const watchWork = () => {
  /** What is further off than this wakes the phone seldom enough: notices asked for, a sheet sent again. */
  const SOON_MS = 60_000
  const timers = new Map<unknown, string>()
  let frames = 0
  let locks = 0
  const { setTimeout, clearTimeout, setInterval, clearInterval, requestAnimationFrame } = window
  Object.assign(window, {
    setTimeout: (work: () => void, delay = 0, ...given: unknown[]) => {
      const id = setTimeout(() => {
        timers.delete(id)
        ;(work as (...all: unknown[]) => void)(...given)
      }, delay)
      if (delay < SOON_MS) timers.set(id, `timeout of ${delay}`)
      return id
    },
    setInterval: (work: () => void, delay = 0) => {
      const id = setInterval(work, delay)
      if (delay < SOON_MS) timers.set(id, `interval of ${delay}`)
      return id
    },
    clearTimeout: (id: number) => {
      timers.delete(id)
      clearTimeout(id)
    },
    clearInterval: (id: number) => {
      timers.delete(id)
      clearInterval(id)
    },
    requestAnimationFrame: (work: FrameRequestCallback) => {
      frames += 1
      return requestAnimationFrame((at) => {
        frames -= 1
        work(at)
      })
    },
    stillToCome: () => [...timers.values(), ...(frames > 0 ? ['a frame'] : [])],
    locksHeld: () => locks,
  })
  const request = async () => {
    locks += 1
    let isHeld = true
    return {
      release: async () => {
        if (isHeld) locks -= 1
        isHeld = false
      },
    }
  }
  Object.defineProperty(navigator, 'wakeLock', { value: { request }, configurable: true })
}

declare global {
  interface Window {
    stillToCome: () => string[]
    locksHeld: () => number
  }
}

const comesToRest = () => expect.poll(() => page.evaluate(() => window.stillToCome()), { timeout: 60_000 }).toEqual([])
const locksHeld = () => page.evaluate(() => window.locksHeld())

it('a phone on which nothing changes does nothing, and keeps its screen on only while a test runs', async () => {
  await openDesk(page, world)
  await comesToRest()
  expect(await locksHeld()).toBe(0)
  await startSheet(page)
  await markCorrect(page, 1, 2)
  await comesToRest()
  expect(await locksHeld()).toBe(1)
  await finishSheet(page, 3)
  await page.getByText(/^Counted as attempt 1: GO/).waitFor()
  await comesToRest()
  expect(await locksHeld()).toBe(0)
})
