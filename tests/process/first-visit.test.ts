import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { axeViolations, openBrowser, openPage, screens } from '../support/browser.ts'
import { type Product, startProduct } from '../support/start-product.ts'

let data: string
let product: Product
let browser: Browser

beforeAll(async () => {
  data = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-data-'))
  product = await startProduct({ REVIEWSTAND_DATA: data, REVIEWSTAND_DEMO: 'off' })
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await product?.end('SIGINT')
  fs.rmSync(data, { recursive: true })
})

it.each(Object.keys(screens) as (keyof typeof screens)[])(
  'the printed link opens a page that works on a %s',
  async (screen) => {
    const link = /http:\S+\/setup#\S+/.exec(product.printed())![0]
    const page = await openPage(browser, link, screen)
    await page.getByRole('button').first().waitFor()
    expect(await page.getByRole('textbox').count()).toBeGreaterThan(0)
    const isWider = await page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth)
    expect(isWider).toBe(false)
    expect(await axeViolations(page)).toEqual([])
  },
)
