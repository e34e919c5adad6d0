import type { BrowserContext, CDPSession, Page } from 'playwright-core'
import { openBrowser, screens } from '../../support/browser.ts'
import { bringDown, PATIENCE_MS, THROTTLE } from './slow-phone.ts'

/** What a test day costs a phone, a sheet of it. */
export interface DayCost {
  readonly sheets: number
  readonly marks: number
  /** Milliseconds in which the page's thread was busy; scripts among them. */
  readonly busy: number
  readonly scripts: number
  /** Puts, adds and deletes of IndexedDB. */
  readonly writes: number
  /** Wake locks that were still held once a sheet was closed, over all sheets. */
  readonly locksLeft: number
}

/** Counts, in the page, what is written and how many wake locks are held. */
const watchCosts = () => {
  const costs = { writes: 0, locks: 0 }
  Object.assign(window, { costs })
  for (const name of ['put', 'add', 'delete'] as const) {
    const original = IDBObjectStore.prototype[name] as (...given: unknown[]) => IDBRequest
    Object.assign(IDBObjectStore.prototype, {
      [name](this: IDBObjectStore, ...given: unknown[]) {
        costs.writes += 1
        return original.apply(this, given)
      },
    })
  }
  const request = async () => {
    costs.locks += 1
    let isHeld = true
    const release = async () => {
      if (isHeld) costs.locks -= 1
      isHeld = false
    }
    return { release }
  }
  Object.defineProperty(navigator, 'wakeLock', { value: { request }, configurable: true })
}

/** Grades so many sheets one after the other without a network, every call marked, at a fourth of this machine's speed. */
export async function timeTestDay(origin: string, sheets: number): Promise<DayCost> {
  const browser = await openBrowser()
  try {
    const phone = await browser.newContext({ viewport: screens.phone, isMobile: true, hasTouch: true })
    await bringDown(phone, origin)
    const { page, session } = await openDesk(phone, origin)
    const before = await busyness(session)
    let marks = 0
    let locksLeft = 0
    for (let sheet = 0; sheet < sheets; sheet++) {
      marks += await gradeOne(page)
      locksLeft += await page.evaluate(() => window.costs.locks)
      await page.getByRole('link', { name: 'To the list' }).first().click()
    }
    const after = await busyness(session)
    const a = (from: number, to: number) => (to - from) / sheets
    const writes = await page.evaluate(() => window.costs.writes)
    return {
      sheets,
      marks: marks / sheets,
      busy: a(before.busy, after.busy),
      scripts: a(before.scripts, after.scripts),
      writes: writes / sheets,
      locksLeft,
    }
  } finally {
    await browser.close()
  }
}

async function openDesk(phone: BrowserContext, origin: string): Promise<{ page: Page; session: CDPSession }> {
  const page = await phone.newPage()
  page.setDefaultTimeout(PATIENCE_MS)
  await page.addInitScript(watchCosts)
  const session = await phone.newCDPSession(page)
  await session.send('Emulation.setCPUThrottlingRate', { rate: THROTTLE })
  await session.send('Performance.enable')
  await page.goto(`${origin}/desk/grader`)
  await page.getByRole('link', { name: 'Somebody without a booking' }).waitFor()
  return { page, session }
}

/** Milliseconds so far. */
async function busyness(session: CDPSession): Promise<{ busy: number; scripts: number }> {
  const { metrics } = await session.send('Performance.getMetrics')
  const of = (wanted: string) => (metrics.find(({ name }) => name === wanted)?.value ?? 0) * 1000
  return { busy: of('TaskDuration'), scripts: of('ScriptDuration') }
}

/** A sheet of somebody without a booking, from the desk to its close. Out: how many calls were marked. */
async function gradeOne(page: Page): Promise<number> {
  await page.getByRole('link', { name: 'Somebody without a booking' }).click()
  await page.getByLabel('Roster number').fill('1')
  await page.getByLabel('Family name').fill('Nobody')
  const arm = page.getByText('sword', { exact: true })
  if (await arm.isVisible()) await arm.click()
  await page.getByRole('button', { name: /start the test/ }).click()
  const where = page.locator('.call-where')
  await where.waitFor()
  const calls = Number(/of (\d+)/.exec((await where.textContent()) ?? '')?.[1])
  for (let call = 1; call <= calls; call++) {
    await page.locator('.call-where', { hasText: new RegExp(`^Call ${call} of`) }).waitFor()
    await page.locator('.grade:not([data-fresh])').waitFor()
    await page.getByRole('button', { name: 'Correct', exact: true }).tap()
  }
  await page.getByRole('button', { name: /close the sheet/ }).tap()
  await page.getByRole('heading', { name: 'By measure' }).waitFor()
  return calls
}

declare global {
  interface Window {
    costs: { writes: number; locks: number }
  }
}
