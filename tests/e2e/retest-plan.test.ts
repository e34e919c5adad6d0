import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Booking } from '../../server/contract/test-days/test-days.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { makeSoldier, putSheet } from '../support/factories.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

let world: World
let browser: Browser
beforeAll(async () => {
  browser = await openBrowser()
})
afterAll(() => browser?.close())

let testDayId: string
beforeEach(async () => {
  world = await buildWorld()
  const { office } = world.app
  const { sponsor: sponsorId, grader: graderId } = world.soldierOf
  for (let nth = 1; nth < 6; nth += 1) {
    const name = { rosterNumber: `20${nth}`, grade: 'CPL', familyName: `Retester ${nth}`, arms: ['sword'] }
    const candidateId = await makeSoldier(office, world.platoonId, name)
    await office.post(`/api/soldiers/${candidateId}/sponsorships`, { sponsorId, from: '2026-01-01' })
    const instants = { startedAt: `2026-06-0${nth}T09:00:00-04:00`, finishedAt: `2026-06-0${nth}T09:30:00-04:00` }
    const standard = { standard: world.standard, standardVersion: 1, arm: 'sword' }
    await putSheet(office, { ...standard, candidateId, sponsorId, graderId, ...instants, outcomeOnly: 'NO-GO' })
  }
  const day = await office.post('/api/test-days', { on: '2026-06-22', unitId: world.platoonId, place: 'Drill hall' })
  testDayId = day.id
  const slots = { from: '08:00', to: '11:00', minutes: 40, pause: 5, graderIds: [graderId] }
  await office.post(`/api/test-days/${testDayId}/slots`, slots)
  return () => world.close()
})

const bookings = async () =>
  (await world.app.office.get<{ items: Booking[] }>(`/api/bookings?testDayId=${testDayId}`)).items

describe('a retest plan', () => {
  it.each(['desktop', 'phone'] as const)('is read, booked but for one, and undone on a %s', async (screen) => {
    const page = await openAsOffice(world, browser, '/retests', { screen })
    await page.getByText('Four of six open retests can be placed by their due day.').waitFor()
    await page.getByText('Two more slots on Monday 22 June would place up to two more.').waitFor()
    await page.getByRole('link', { name: 'See and book the plan' }).click()
    await page.getByRole('heading', { name: 'Four of six open tests can be placed by their due day.' }).waitFor()
    await page.getByText('No other plan with these slots, graders and sponsors does better.').waitFor()
    await settled(page)
    expect(await axeViolations(page)).toEqual([])
    const notPlaced = page.getByRole('table', { name: 'Not placed' })
    expect(await notPlaced.getByText(/^Every slot that would do is taken: by/).count()).toBe(2)

    const ticks = page.getByRole('table', { name: /^Planned on Monday 22 June/ }).getByRole('checkbox')
    expect(await ticks.count()).toBe(4)
    await ticks.last().uncheck()
    await page.getByRole('button', { name: 'Book the 3 ticked tests' }).click()
    await page.getByText('3 tests of this plan booked.').waitFor()
    expect(await bookings()).toHaveLength(3)
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByText('3 bookings taken back.').waitFor()
    expect(await bookings()).toHaveLength(0)
  })

  it('says what has changed since, and is worked out again', async () => {
    const page = await openAsOffice(world, browser, '/retests')
    await page.getByRole('link', { name: 'See and book the plan' }).click()
    await page.getByRole('button', { name: 'Book all 4 tests' }).waitFor()
    const graderId = world.soldierOf.grader
    const { id } = await world.app.office.post('/api/test-days', {
      on: '2026-06-23',
      unitId: world.platoonId,
      place: '',
    })
    const slots = { from: '08:00', to: '11:00', minutes: 40, pause: 5, graderIds: [graderId] }
    await world.app.office.post(`/api/test-days/${id}/slots`, slots)
    await page.reload()
    await page.getByText('This has changed since the plan was made.').waitFor()
    await page.getByText('A slot on Tuesday 23 June is free now.').first().waitFor()
    await page.getByRole('button', { name: 'Work it out again' }).click()
    await page.getByRole('heading', { name: 'All six open tests can be placed by their due day.' }).waitFor()
    await page.getByText('Every open test has a slot.').waitFor()
  })
})
