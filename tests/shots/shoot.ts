import fs from 'node:fs'
import path from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { addressesOf, DOORWAYS, type Things } from '../support/addresses.ts'

export const FOLDER = path.resolve(import.meta.dirname, '../../shots')

const WIDTHS = [390, 820, 1440]
const HEIGHT = 900
const THEMES = ['light', 'dark', 'sun'] as const

export interface Session {
  browser: Browser
  url: string
  role: string
  account: string
  password: string
  things: Things
  only: string[] | undefined
}

/** Takes pictures of every screen as one account sees it: each width in each theme, and as it is printed. */
export async function shoot({ browser, url, role, account, password, things, only }: Session): Promise<void> {
  const context = await browser.newContext({ reducedMotion: 'reduce', serviceWorkers: 'block' })
  const page = await context.newPage()
  const answer = await page.request.post(`${url}/api/session`, {
    data: { name: account, password },
    headers: { origin: url },
  })
  if (!answer.ok()) throw new Error(`${account} cannot sign in: ${answer.status()}`)
  const folder = path.join(FOLDER, role)
  fs.mkdirSync(folder, { recursive: true })
  for (const [screen, address] of addressesOf({ ...things, desk: role })) {
    if (DOORWAYS.includes(screen) || (only && !only.includes(screen))) continue
    await page.setViewportSize({ width: WIDTHS.at(-1)!, height: HEIGHT })
    await page.goto(url + address)
    if (!(await isWorthAPicture(page))) continue
    const save = (name: string) => page.screenshot({ path: path.join(folder, `${screen}-${name}.png`), fullPage: true })
    for (const width of WIDTHS) {
      await page.setViewportSize({ width, height: HEIGHT })
      for (const theme of THEMES) {
        await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
        await save(`${width}-${theme}`)
      }
    }
    await page.emulateMedia({ media: 'print' })
    await page.setViewportSize({ width: 794, height: HEIGHT })
    await save('print')
    await page.emulateMedia({ media: 'screen' })
    console.log(`${role}: ${screen}`)
  }
  await context.close()
}

/** Waits for the page; what this role may not see, or is not there, needs no picture for each of them. */
async function isWorthAPicture(page: Page): Promise<boolean> {
  await page.waitForSelector('#main:not([aria-busy]) h1').catch(() => undefined)
  await page.waitForFunction(() => document.querySelector('[aria-busy=true]') === null).catch(() => undefined)
  const heading = await page.locator('h1').first().textContent()
  return !/^(There is no page|The page “|This is the desk of|.*(could not be loaded|not yours to see))/.test(
    heading ?? '',
  )
}
