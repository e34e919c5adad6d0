import type { Browser, Locator, Page } from 'playwright-core'
import { openPage } from '../support/browser.ts'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { signIn } from '../support/sign-in.ts'
import type { Hands } from './by-keyboard.ts'
import { settled } from './world.ts'

const NOW = '2026-06-17T14:00:00Z'

/** A unit with nothing but its first account, at its desk. */
export async function beginUnit(browser: Browser): Promise<{ test: TestApp; page: Page }> {
  const test = await buildTestApp({ now: NOW, timeZone: 'America/New_York' })
  await test.signedIn({ name: 'first', roles: ['office', 'administrator'] })
  const url = test.app.listeningOrigin
  const page = await openPage(browser, `${url}/sign-in`, 'desktop')
  await page.clock.setFixedTime(new Date(NOW))
  await signIn(page, url, 'first')
  await page.goto(url)
  await settled(page)
  return { test, page }
}

/** What an office does on the pages by which a unit is set up. */
export interface Office {
  heading(name: string | RegExp): Promise<void>
  /** What a button or line says that hangs on what is there. */
  said(what: Locator): Promise<string>
  /** Presses a button of which the words hang on what is there. */
  goTo(name: RegExp): Promise<void>
  /** To a page, by searching for what one means to do, until its answer is there. */
  openPlace(title: string, answer: string | RegExp): Promise<void>
  /** Stores a file that was checked. */
  storeRows(rows: number): Promise<void>
  /** Writes rows by hand, from their first column on, and stores them. */
  writeRows(kind: string, first: string, rows: readonly (readonly string[])[]): Promise<void>
}

/** In: what is looked at on each page that is filled in. */
export function atOffice(page: Page, hands: Hands, look: () => Promise<void>): Office {
  const button = (name: string | RegExp) => page.getByRole('button', { name })
  const office: Office = {
    heading: (name) => page.getByRole('heading', { level: 1, name }).waitFor(),
    said: async (what) => ((await what.first().textContent()) ?? '').trim(),
    async goTo(name) {
      await button(name).first().waitFor()
      await hands.go(await office.said(button(name)))
    },
    async openPlace(title, answer) {
      const from = page.url()
      await hands.goTo(title)
      await page.waitForURL(({ href }) => href !== from)
      // A page that is loading has a heading of its own for a moment.
      await page.locator('#main:not([aria-busy]) h1', { hasText: answer }).waitFor()
      await settled(page)
    },
    async storeRows(rows) {
      await office.heading(`${rows} row${rows === 1 ? ' can' : 's can'} be stored.`)
      await look()
      await office.goTo(/^Store /)
      await page.getByRole('dialog').getByRole('button', { name: 'Store it' }).waitFor()
      await hands.go('Store it')
      await office.heading(
        `${rows} row${rows === 1 ? '' : 's'} of the file ${rows === 1 ? 'is' : 'are'} in the record.`,
      )
    },
    async writeRows(kind, first, rows) {
      await office.openPlace('Import a file', /./)
      await hands.go(await office.said(page.locator('summary', { hasText: 'Write the rows by hand' })))
      await hands.choose('What the rows are', kind)
      await hands.tabTo(`${first}, row 1`)
      for (const [row, cells] of rows.entries()) {
        if (row > 0) await hands.press('Enter')
        for (const [at, cell] of cells.entries()) {
          if (at > 0) await hands.press('Tab')
          hands.counts.fields += 1
          await hands.type(cell)
        }
      }
      await look()
      await hands.go(rows.length === 1 ? 'Look at this row' : 'Look at these rows')
      await office.heading(new RegExp(`^${rows.length} rows? waits? to be looked at`))
      await hands.go('Check every row')
      await office.storeRows(rows.length)
    },
  }
  return office
}
