import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openBrowser } from '../support/browser.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

let world: World
let browser: Browser
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

const parameters = (address: string) => Object.fromEntries(new URL(address).searchParams)

describe('who can stand', () => {
  it('keeps its filters in the address, and Back undoes the last one', async () => {
    const page = await openAsOffice(world, browser, '/stand')
    const answer = page.getByRole('heading', { level: 1 })
    expect(await answer.textContent()).toBe('2 of 5 required certifications are in force today.')
    await page.getByLabel('Certification').selectOption({ label: 'Sword' })
    await page.getByText('2 of 5 required to hold Sword can stand today.').waitFor()
    await page.getByLabel('Ceremony').selectOption({ index: 1 })
    await page
      .getByRole('heading', { name: 'Two of three posts are not filled for Founders’ Parade on Saturday 27 June.' })
      .waitFor()
    expect(parameters(page.url())).toMatchObject({
      certification: 'sword',
      ceremony: world.ceremonyId,
      asOf: '2026-06-27',
    })
    await page.goBack()
    await page.getByText('2 of 5 required to hold Sword can stand today.').waitFor()
    expect(parameters(page.url())).toEqual({ certification: 'sword' })
    await page.context().close()
  })

  it('opens for a ceremony by its link, with posts filled and short and the way to name somebody', async () => {
    const page = await openAsOffice(world, browser, `/stand?ceremony=${world.ceremonyId}`)
    const posts = page.getByRole('list', { name: 'Ranks, front rank first' })
    expect(await posts.getByRole('listitem', { name: /^Rank/ }).count()).toBe(2)
    expect(await posts.textContent()).toMatch(/Commander of troopsSFC Quintrell/)
    expect(await posts.textContent()).toMatch(/Colours, right guardCPL Amadi.*not certified/)
    expect(await posts.textContent()).toMatch(/Colours, left guardnobody named/)
    await page.getByRole('link', { name: 'Name soldiers, alternates, roster' }).click()
    await page.waitForURL(`**/ceremonies/${world.ceremonyId}`)
    await page.context().close()
  })

  it('as of another day asks for that day', async () => {
    const page = await openAsOffice(world, browser, '/stand')
    await page.getByLabel('As of').fill('2025-12-31')
    await page.getByText('3 of 5 required certifications are in force on 31 December 2025.').waitFor()
    expect(parameters(page.url())).toEqual({ asOf: '2025-12-31' })
    await page.context().close()
  })

  it('prints the roster in black and white, without menus and controls', async () => {
    const page = await openAsOffice(world, browser, `/stand?unitId=${world.platoonId}`)
    await page.emulateMedia({ media: 'print' })
    expect(await page.getByRole('navigation').isVisible()).toBe(false)
    expect(await page.getByLabel('As of').isVisible()).toBe(false)
    expect(await page.getByRole('table').getByText('CPL Amadi, Rafe').isVisible()).toBe(true)
    const colour = await page
      .locator('.state-word')
      .first()
      .evaluate((word) => getComputedStyle(word).color)
    expect(colour).toBe('rgb(0, 0, 0)')
    const pdf = await page.pdf({ format: 'A4' })
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-')
    await page.context().close()
  })

  it('says what to do when the server does not answer, and recovers', async () => {
    const page = await openAsOffice(world, browser, '/stand')
    await page.context().route('**/api/readiness*', (route) => route.abort())
    await page.getByLabel('Certification').selectOption({ label: 'Sword' })
    await page.getByText(/The server does not answer\. Check the network/).waitFor()
    await page.context().unroute('**/api/readiness*')
    await page.getByRole('button', { name: 'Try again' }).click()
    await page.getByText('2 of 5 required to hold Sword can stand today.').waitFor()
    await settled(page)
    await page.context().close()
  })
})
