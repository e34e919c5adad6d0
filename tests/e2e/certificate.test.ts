import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Certificate } from '../../server/contract/soldiers/extracts.ts'
import { openBrowser } from '../support/browser.ts'
import { readPrinted } from '../support/printed.ts'
import { atDesk, signInAs } from './every-screen.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

let world: World
let browser: Browser
let address: string
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
  address = `/candidates/${world.soldierOf.sponsor}/certificate?certification=sword`
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

const make = () =>
  world.app.office.get<Certificate>(`/api/soldiers/${world.soldierOf.sponsor}/certificate?certification=sword`)

async function open(path: string) {
  const context = await atDesk(browser)
  if (path === address) await signInAs(world, context, 'office')
  const page = await context.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  const asked: string[] = []
  page.on('request', (request) => asked.push(request.url()))
  await page.goto(world.url + path)
  await settled(page)
  return { page, asked }
}

describe('a certificate', () => {
  it('is one page of A4 and of letter, with a code and how to check it', async () => {
    const { page } = await open(address)
    await page.getByRole('img', { name: 'QR code of the signed certificate' }).waitFor()
    expect(await page.getByRole('article').textContent()).toContain(`${world.url}/verify`)
    await page.emulateMedia({ media: 'print' })
    for (const format of ['A4', 'Letter'] as const) {
      expect(readPrinted(await page.pdf({ format })).pages).toBe(1)
    }
  })

  it('is checked by whoever scans it, without an account, and no request line has a name in it', async () => {
    const { signed } = await make()
    const { page, asked } = await open(`/verify#${signed}`)
    await page.getByRole('heading', { name: 'It is in force today.' }).waitFor()
    const main = await page.getByRole('main').textContent()
    expect(main).toContain('Mirela Ashdown')
    expect(main).not.toContain('1003')
    expect(page.url()).toBe(`${world.url}/verify`)
    expect(asked).toContain(`${world.url}/api/certificates/verify`)
    expect(asked.filter((url) => url.includes(signed!.slice(100, 140)))).toEqual([])
  })

  it('scanned while the page is open, or pasted with its address in several lines, is checked as well', async () => {
    const { signed } = await make()
    const { page } = await open('/verify')
    await page.getByRole('heading', { name: 'Is a certificate genuine?' }).waitFor()
    await page.getByLabel('What the code holds').fill('eyJ.eyJ.x')
    await page.getByRole('button', { name: 'Check' }).click()
    await page.getByRole('heading', { name: 'This is not a certificate of this unit.' }).waitFor()
    const whole = `${world.url}/verify#${signed}`
    await page.getByLabel('Another certificate').fill(`${whole.slice(0, 90)}\n${whole.slice(90)}\n`)
    await page.getByRole('button', { name: 'Check' }).click()
    await page.getByRole('heading', { name: 'It is in force today.' }).waitFor()
    await page.evaluate(() => {
      location.hash = '#eyJ.eyJ.x'
    })
    await page.getByRole('heading', { name: 'This is not a certificate of this unit.' }).waitFor()
    expect(await page.getByRole('main').textContent()).not.toContain('Ashdown')
  })
})
