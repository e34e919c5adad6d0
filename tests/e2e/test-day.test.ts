import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Booking } from '../../server/contract/test-days/test-days.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import {
  buildFieldWorld,
  type FieldWorld,
  finishSheet,
  markCorrect,
  newPhone,
  openDesk,
  pageOn,
  signInOn,
  startSheet,
} from './field-world.ts'

let world: FieldWorld
let browser: Browser
let phone: BrowserContext
let page: Page
beforeAll(async () => {
  world = await buildFieldWorld()
  browser = await openBrowser()
  phone = await newPhone(browser)
  await signInOn(phone, world)
  page = await pageOn(phone)
  await openDesk(page, world)
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

const bookings = async (): Promise<Booking[]> =>
  (await world.app.office.get<{ items: Booking[] }>(`/api/bookings?testDayId=${world.testDayId}`)).items
const stateOf = async (id: string) => (await bookings()).find((one) => one.id === id)

describe('a test day on the phone', () => {
  it('checks in and takes a walk-in without a network, and sends each once when it is back', async () => {
    await phone.setOffline(true)
    await page.getByRole('button', { name: 'Check in CPL Nwosu' }).click()
    await page.getByLabel('The right uniform is worn').uncheck()
    expect(await axeViolations(page)).toEqual([])
    await page.getByRole('dialog').getByRole('button', { name: 'Check in' }).press('Enter')
    await page.getByText('1 check-in or walk-in on this phone, not yet sent').waitFor()
    await page.getByText('checked in: uniform not right').waitFor()
    expect(await axeViolations(page)).toEqual([])
    expect(await stateOf(world.bookings[1])).toMatchObject({ state: 'booked' })

    await page.getByRole('link', { name: 'Somebody without a booking' }).click()
    const cautions = page.getByRole('button', { name: /open the day$/ })
    await cautions.or(page.getByLabel('Roster number')).first().waitFor()
    if (await cautions.isVisible()) await cautions.click()
    await page.getByLabel('Roster number').fill('1010')
    await page.getByLabel('Family name').fill('Brandt')
    await page.getByLabel('sword', { exact: true }).check()
    await page.getByRole('button', { name: /start the test/ }).click()
    await markCorrect(page, 1, 2)
    await page.goto(`${world.url}/desk/grader`)
    await page.getByText('2 check-ins and walk-ins on this phone, not yet sent').waitFor()

    await phone.setOffline(false)
    await page.getByText('not yet sent').first().waitFor({ state: 'detached' })
    await page.reload()
    await page.getByText('Brandt, Louisa').first().waitFor()
    const all = await bookings()
    expect(all.filter(({ candidateId }) => candidateId === world.walkInId)).toMatchObject([
      { state: 'checked in', graderId: world.graderId },
    ])
    expect(await stateOf(world.bookings[1])).toMatchObject({
      state: 'checked in',
      checkIn: { uniform: false, equipment: true, sponsorPresent: true },
    })
  })

  it('shows in another browser how the test stands and how it ended, without being asked', async () => {
    const desk = await newPhone(browser)
    await signInOn(desk, world, 'office')
    const line = await pageOn(desk)
    await line.goto(`${world.url}/test-days/${world.testDayId}/line`)
    await line.getByText('Live: changes show by themselves.').waitFor()
    expect(await axeViolations(line)).toEqual([])

    await page.goto(`${world.url}/desk/grader`)
    await startSheet(page)
    await markCorrect(page, 1, 4)
    await line
      .getByText(/call [45] of 39/)
      .first()
      .waitFor()
    await finishSheet(page, 5)
    await line.getByRole('region', { name: 'Closed' }).getByText('Amadi, Rafe').waitFor()
    expect(await axeViolations(line)).toEqual([])
    await desk.close()
  })

  it('closes with who has seen it, and debriefs without a network', async () => {
    await page.goto(`${world.url}/desk/grader`)
    await page.getByRole('link', { name: 'Start', exact: true }).first().click()
    await page.getByRole('button', { name: /Start the test as it is/ }).click()
    await markCorrect(page, 1, 39)
    await page.getByRole('button', { name: 'I have seen this: CPL Nwosu' }).click()
    await page.getByText(/Seen by CPL Nwosu at/).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await phone.setOffline(true)
    await page.getByRole('button', { name: /close the sheet/ }).click()
    await page.getByRole('link', { name: 'Debrief' }).click()
    await page.getByRole('heading', { name: 'Drill first' }).waitFor()
    await page.getByText(/CPL Nwosu at/).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await phone.setOffline(false)
    await page.getByRole('link', { name: 'Back to the sheet' }).click()
    await page.getByRole('link', { name: 'The sheet as it is stored' }).waitFor()
    const [id, nwosu] = [world.bookings[1], (await stateOf(world.bookings[1]))!.candidateId]
    const stored = await world.sheet(id)
    expect(stored.acknowledged.map(({ soldierId }) => soldierId)).toEqual([nwosu])
    expect(await stateOf(id)).toMatchObject({ state: 'tested', sheetId: id })
  })
})
