import type { BrowserContext, CDPSession, Page } from 'playwright-core'
import { openBrowser, screens } from '../../support/browser.ts'
import { quantile } from '../measure/summary.ts'
import { bringDown, PATIENCE_MS, THROTTLE } from './slow-phone.ts'
import { type DayCost, timeTestDay } from './time-test-day.ts'

export interface PhonePlan {
  /** Sheets opened without a network, each by a page of its own. */
  readonly openings: number
  /** Marks made on each sheet; fewer than its calls. */
  readonly taps: number
  /** Sheets of a whole test day. */
  readonly sheets: number
}

interface Spread {
  readonly count: number
  /** Milliseconds. */
  readonly p50: number
  readonly p95: number
}

export interface PhoneTimes {
  /** The processor is so many times slower than this machine's. */
  readonly throttle: number
  /** From a finger lifted to the next call painted, the mark on the disk. */
  readonly tap: Spread
  /** From the address to the call painted, without a network. */
  readonly opening: Spread
  readonly day: DayCost
}

/** Two taps within half a second at one place are a bounce and count once. */
const BETWEEN_TAPS_MS = 700

/** Writes down, in the page, when a call was painted and when the finger before it was lifted; milliseconds since the page began. */
const watchCalls = () => {
  const seen: { call: string; liftedAt: number; paintedAt: number }[] = []
  let liftedAt = 0
  let last = ''
  Object.assign(window, { seenCalls: seen, onCallSeen: null })
  addEventListener('click', ({ timeStamp }) => (liftedAt = timeStamp), true)
  new MutationObserver(() => {
    const call = document.querySelector('.call-where')?.textContent?.split('·')[0]?.trim() ?? ''
    if (call === '' || call === last) return
    last = call
    const lifted = liftedAt
    // The first task after a frame's callbacks comes after its paint.
    const { port1, port2 } = new MessageChannel()
    port1.onmessage = () => {
      seen.push({ call, liftedAt: lifted, paintedAt: performance.now() })
      window.onCallSeen?.()
    }
    requestAnimationFrame(() => port2.postMessage(null))
  }).observe(document, { childList: true, subtree: true, characterData: true })
}

/** Times grading on a phone without a network, at a fourth of this machine's speed, on the product at an address. */
export async function timePhone(origin: string, { openings, taps, sheets }: PhonePlan): Promise<PhoneTimes> {
  const day = await timeTestDay(origin, sheets)
  const browser = await openBrowser()
  try {
    const phone = await browser.newContext({ viewport: screens.phone, isMobile: true, hasTouch: true })
    await bringDown(phone, origin)
    const opened: number[] = []
    const tapped: number[] = []
    for (let round = 0; round < openings; round++) {
      const sheet = await startSheet(phone, origin)
      const page = await slowPage(phone)
      await page.goto(sheet)
      opened.push((await paintedCall(page, 1)).paintedAt)
      for (let tap = 1; tap <= taps; tap++) tapped.push(await timeTap(page, tap))
      await page.close()
    }
    return { throttle: THROTTLE, tap: spread(tapped), opening: spread(opened), day }
  } finally {
    await browser.close()
  }
}

/** Starts a sheet of somebody without a booking. Out: its address. */
async function startSheet(phone: BrowserContext, origin: string): Promise<string> {
  const page = await phone.newPage()
  page.setDefaultTimeout(PATIENCE_MS)
  await page.goto(`${origin}/grade/start`)
  await page.getByLabel('Roster number').fill('1')
  await page.getByLabel('Family name').fill('Nobody')
  const arm = page.getByText('sword', { exact: true })
  if (await arm.isVisible()) await arm.click()
  await page.getByRole('button', { name: /start the test/ }).click()
  await page.locator('.call-where').waitFor()
  const address = page.url()
  await page.close()
  return address
}

async function slowPage(phone: BrowserContext): Promise<Page> {
  const page = await phone.newPage()
  page.setDefaultTimeout(PATIENCE_MS)
  await page.addInitScript(watchCalls)
  const session: CDPSession = await phone.newCDPSession(page)
  await session.send('Emulation.setCPUThrottlingRate', { rate: THROTTLE })
  return page
}

/** The so-manieth call that the page has painted. The page tells of it: asked again at each frame, it would be slower for that. */
const paintedCall = (page: Page, count: number): Promise<{ liftedAt: number; paintedAt: number }> =>
  page.evaluate(async (least) => {
    while (window.seenCalls.length < least) {
      await new Promise<void>((resolve) => {
        window.onCallSeen = resolve
      })
    }
    return window.seenCalls[least - 1]!
  }, count)

async function timeTap(page: Page, tap: number): Promise<number> {
  await page.waitForTimeout(BETWEEN_TAPS_MS)
  const box = (await page.getByRole('button', { name: 'Correct', exact: true }).boundingBox())!
  await page.touchscreen.tap(box.x + box.width / 2, box.y + box.height / 2)
  const { liftedAt, paintedAt } = await paintedCall(page, tap + 1)
  return paintedAt - liftedAt
}

const spread = (values: readonly number[]): Spread => {
  const sorted = [...values].sort((a, b) => a - b)
  return { count: sorted.length, p50: quantile(sorted, 0.5), p95: quantile(sorted, 0.95) }
}

declare global {
  interface Window {
    seenCalls: { call: string; liftedAt: number; paintedAt: number }[]
    onCallSeen: (() => void) | null
  }
}
