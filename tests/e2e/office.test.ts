import axe from 'axe-core'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Booking, TestDay } from '../../server/contract/test-days/test-days.ts'
import { openBrowser } from '../support/browser.ts'
import { makeSoldier, putSheet } from '../support/factories.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

const RETESTS = 5
let world: World
let browser: Browser
let days: string[]
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
  const { office } = world.app
  const { sponsor: sponsorId, grader: graderId } = world.soldierOf
  for (let nth = 1; nth < RETESTS; nth += 1) {
    const name = { rosterNumber: `20${nth}`, grade: 'CPL', familyName: `Retester ${nth}`, arms: ['sword'] }
    const candidateId = await makeSoldier(office, world.platoonId, name)
    await office.post(`/api/soldiers/${candidateId}/sponsorships`, { sponsorId, from: '2026-01-01' })
    const instants = { startedAt: `2026-05-2${nth}T09:00:00-04:00`, finishedAt: `2026-05-2${nth}T09:30:00-04:00` }
    const people = { candidateId, sponsorId, graderId }
    const standard = { standard: world.standard, standardVersion: 1, arm: 'sword' }
    await putSheet(office, { ...standard, ...people, ...instants, outcomeOnly: 'NO-GO' })
  }
  days = []
  for (const on of ['2026-06-22', '2026-06-24']) {
    const { id } = await office.post('/api/test-days', { on, unitId: world.platoonId, place: 'Drill hall' })
    const slots = { from: '08:00', to: '12:00', minutes: 40, pause: 5, graderIds: [graderId] }
    await office.post(`/api/test-days/${id}/slots`, slots)
    days.push(id)
  }
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

const bookingsOf = async (id: string) =>
  (await world.app.office.get<{ items: Booking[] }>(`/api/bookings?testDayId=${id}`)).items

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(axe.source)
  return page.evaluate(async () => {
    const { axe: tool } = window as unknown as { axe: typeof axe }
    const { violations: found } = await tool.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'] })
    return found.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)
  })
}

describe('the day of the training office', () => {
  it('books five retests on a test day and calls the day off, with everybody booked anew', async () => {
    const page = await openAsOffice(world, browser, '/')
    await page.getByRole('link', { name: '5 to fill' }).first().click()
    await settled(page)
    const boxes = page.getByRole('checkbox', { name: /^Choose / })
    for (let nth = 0; nth < RETESTS; nth += 1) await boxes.nth(nth).check()
    await page.getByRole('button', { name: 'Book 5 tests' }).click()
    await page.getByText('Five tests booked for').waitFor()
    await page.getByLabel('Booking').selectOption('Not booked')
    await page.getByText('No open retest matches.').waitFor()
    await page.getByLabel('Booking').selectOption('Booked')
    expect(await page.getByRole('link', { name: 'Mon 22 Jun' }).count()).toBe(RETESTS)
    expect(await bookingsOf(days[0]!)).toHaveLength(RETESTS)

    await page.goto(`${world.url}/test-days/${days[0]}`)
    await settled(page)
    await page.getByRole('button', { name: 'Call the day off' }).click()
    await page.getByText('Of 5 bookings, 5 go to the next free slots.').waitFor()
    await page.getByLabel('Reason').fill('Thunderstorm')
    await page.getByRole('button', { name: 'Call it off and rebook 5' }).click()
    await page.getByRole('heading', { name: 'Monday 22 June was called off.' }).waitFor()
    expect(
      await page
        .getByRole('cell')
        .getByRole('link', { name: /^Wed 24 Jun at / })
        .count(),
    ).toBe(RETESTS)
    expect(await bookingsOf(days[0]!)).toEqual([])
    expect(await bookingsOf(days[1]!)).toHaveLength(RETESTS)
    const all = await world.app.office.get<{ items: TestDay[] }>('/api/test-days')
    expect(all.items.find(({ id }) => id === days[0])?.calledOff?.reason).toBe('Thunderstorm')
    await page.context().close()
  })

  it.each(['light', 'dark', 'sun'] as const)('is accessible on every screen, %s', async (theme) => {
    for (const screen of ['phone', 'desktop'] as const) {
      const page = await openAsOffice(world, browser, '/', { screen, theme })
      const review = `/retests/${world.candidateId}/${world.standard}/review`
      const pages = ['/', '/test-days', `/test-days/${days[1]}`, `/test-days/${days[0]}`, '/notices', review]
      const views = ['/retests', '/retests?view=kept']
      for (const address of [...pages, ...views]) {
        await page.goto(world.url + address)
        await settled(page)
        expect(await violations(page), `${address} ${screen}`).toEqual([])
        const tooWide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
        expect(tooWide, `${address} ${screen}`).toBeLessThanOrEqual(0)
      }
      await page.context().close()
    }
  })
})
