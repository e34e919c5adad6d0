import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { buildFieldWorld, type FieldWorld, newPhone, pageOn, signInOn } from './field-world.ts'

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
  await signInOn(phone, world, 'coach')
  page = await pageOn(phone)
  return async () => {
    await phone.close()
    await world.close()
  }
})

const sheet = () => page.getByRole('region', { name: 'Study sheet' })

describe('the study sheet', () => {
  it('is one link from the sponsor’s desk, and opens without a network', async () => {
    await page.goto(`${world.url}/desk/sponsor`)
    const article = page.getByRole('article').filter({ hasText: 'Amadi' })
    await article.getByRole('link', { name: /^Study sheet/ }).click()
    await sheet().getByRole('heading', { name: 'How the test runs' }).waitFor()
    const online = await sheet().textContent()
    expect(online).toContain('Amadi')
    expect(await axeViolations(page)).toEqual([])
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready
    })
    const address = page.url()
    await phone.setOffline(true)
    await page.goto(`${world.url}/`)
    await page.getByRole('heading', { name: 'Study sheets on this device' }).waitFor()
    await page.goto(address)
    await sheet().waitFor()
    expect(await sheet().textContent()).toBe(online)
    await page.getByText(/^To pass: .*No answer from the server; as kept on this device/).waitFor()
  })

  it('prints on the two sides of one sheet of A4 and of letter, nothing smaller than 8.5 points', async () => {
    await page.goto(`${world.url}/standards/sword-saber-standing/study?candidate=${world.candidateId}`)
    await sheet().waitFor()
    await page.emulateMedia({ media: 'print' })
    const smallest = await sheet().evaluate((root) =>
      Math.min(
        ...[root, ...root.querySelectorAll('*')]
          .filter((one) =>
            [...one.childNodes].some(({ nodeType, textContent }) => nodeType === 3 && textContent?.trim()),
          )
          .map((one) => Number.parseFloat(getComputedStyle(one).fontSize)),
      ),
    )
    expect(smallest / (96 / 72)).toBeGreaterThanOrEqual(8.49)
    for (const format of ['A4', 'letter']) {
      const pdf = (await page.pdf({ format })).toString('latin1')
      expect(pdf.match(/\/Type\s*\/Page\b/g)?.length, format).toBeLessThanOrEqual(2)
    }
  })
})
