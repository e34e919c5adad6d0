import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Standard } from '../../server/contract/standards/standards.ts'
import { openBrowser, openPage } from '../support/browser.ts'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { signIn } from '../support/sign-in.ts'
import { atKeyboard } from './by-keyboard.ts'
import { expectAsOnPaper, writePaperStandard } from './paper-standard.ts'
import { settled } from './world.ts'

/** Somebody who looks from the sheet to the screen and back needs so long for a field. */
const SECONDS_A_FIELD = 2
const MOST_MINUTES = 15

let test: TestApp
let browser: Browser
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-17T14:00:00Z', timeZone: 'America/New_York' })
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await test?.close()
})

it('a clerk writes a whole standard from a paper sheet, by keyboard alone', async () => {
  const url = test.app.listeningOrigin
  const page = await openPage(browser, `${url}/sign-in`, 'desktop')
  await signIn(page, url, 'office')
  await page.goto(`${url}/standards`)
  await settled(page)
  const keys = atKeyboard(page)
  await writePaperStandard(page, keys)
  const { items } = await test.office.get<{ items: Standard[] }>('/api/standards')
  expectAsOnPaper(items)

  const minutes = (keys.counts.fields * SECONDS_A_FIELD) / 60
  console.info(
    `Written with ${keys.counts.fields} fields and lines, ${keys.counts.keys} keys and no click: ${minutes.toFixed(1)} minutes at ${SECONDS_A_FIELD} s a field.`,
  )
  expect(minutes).toBeLessThan(MOST_MINUTES)
  await page.context().close()
})
