import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, it, onTestFinished } from 'vitest'
import { codeOf, setUpApp } from '../support/authenticator-app.ts'
import { axeViolations, openBrowser, openProfile, screens } from '../support/browser.ts'
import { PASSWORD } from '../support/build-test-app.ts'
import { createClient } from '../support/client.ts'
import { putSheet } from '../support/factories.ts'
import {
  atCall,
  buildFieldWorld,
  type FieldWorld,
  finishSheet,
  markCorrect,
  NOW,
  newPhone,
  openDesk,
  pageOn,
  seen,
  signInOn,
  startSheet,
  waitingSheets,
} from './field-world.ts'

const standing = JSON.parse(
  fs.readFileSync(path.join(import.meta.dirname, '../cases/standard-standing.json'), 'utf8'),
) as {
  code: string
  majors: { code: string }[]
  minors: { code: string; faults: { code: string; title: string }[] }[]
}

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
  await signInOn(phone, world)
  page = await pageOn(phone)
  return async () => {
    await phone.close()
    await world.close()
  }
})

/** Every sheet that the server has, by id and outcome. */
const onServer = async (): Promise<string[]> =>
  (await world.app.office.get<{ items: { id: string; result: { outcome: string } }[] }>('/api/sheets?limit=500')).items
    .map(({ id, result }) => `${id} ${result.outcome}`)
    .sort()

async function signInByHand(on: Page, { url }: FieldWorld): Promise<void> {
  await on.goto(`${url}/sign-in`)
  await on.getByLabel('Name').fill('grader')
  await on.getByLabel('Password').fill(PASSWORD)
  await on.getByRole('button', { name: 'Sign in' }).click()
}

/** Chromium gives a former service worker five minutes to be done with what it does before a newer one that asked for it takes over. */
const TAKES_OVER_MS = 450_000

/** Ends the worker that answers for a page, whenever the page has started it again, until a newer one has taken over. */
async function endFormerWorker(on: Page): Promise<void> {
  const session = await on.context().newCDPSession(on)
  let former: string | undefined
  session.on('ServiceWorker.workerVersionUpdated', ({ versions }) => {
    former = versions.find(({ status }) => status === 'activated')?.versionId ?? former
  })
  await session.send('ServiceWorker.enable')
  const hasTakenOver = () =>
    on
      .locator('.update-bar')
      .waitFor({ state: 'detached', timeout: 1_000 })
      .then(
        () => true,
        () => false,
      )
  const end = Date.now() + TAKES_OVER_MS
  while (!(await hasTakenOver())) {
    if (Date.now() > end) throw new Error('The newer version has not taken over.')
    if (former) await session.send('ServiceWorker.stopWorker', { versionId: former })
  }
}

const sendNow = (on: Page) => on.getByRole('button', { name: 'Send now' })

describe('without a network', () => {
  it('the app opens at its address, lists the day, grades, and sends when the network is back', async () => {
    await openDesk(page, world)
    await phone.setOffline(true)
    await page.goto(`${world.url}/`)
    await page.getByText('Two candidates to test today.').waitFor()
    await page.getByText('No answer from the server; grading works.').waitFor()
    expect(await axeViolations(page)).toEqual([])
    await startSheet(page)
    await finishSheet(page)
    await page.getByText(/^1 sheet on this phone, not yet sent/).waitFor()
    expect(await axeViolations(page)).toEqual([])
    // The next one is a tap away.
    await page.getByRole('link', { name: 'Next candidate: CPL Nwosu' }).click()
    await page.getByRole('heading', { name: 'CPL Nwosu, Ines' }).waitFor()
    await page.getByRole('link', { name: 'Back to the list' }).click()
    await page.getByText('One candidate to test today; one is through.').waitFor()
    expect(await onServer()).toEqual([])
    await phone.setOffline(false)
    await page.getByText('Every closed sheet is sent').waitFor()
    expect(await onServer()).toEqual([`${world.bookings[0]} GO`])
  })

  it('somebody without a booking is graded by number and name, and found when the network is back', async () => {
    await openDesk(page, world)
    await phone.setOffline(true)
    await page.getByRole('link', { name: 'Somebody without a booking' }).click()
    await page.getByRole('button', { name: /open the day$/ }).click()
    await page.getByLabel('Roster number').fill('1010')
    await page.getByLabel('Family name').fill('Brant')
    await page.getByText('sword', { exact: true }).click()
    await page.getByRole('button', { name: /start the test/ }).click()
    await finishSheet(page)
    await phone.setOffline(false)
    await page.getByText(/Nobody on the roster has number 1010 and the name Brant/).waitFor()
    expect(await onServer()).toEqual([])
    expect(await axeViolations(page)).toEqual([])
    await page.getByLabel('Family name').fill('Brandt')
    await page.getByRole('button', { name: 'Send with these' }).click()
    await page.getByText(/^Counted as attempt 1: GO/).waitFor()
    const id = new URL(page.url()).pathname.split('/').at(-1)!
    expect(await world.sheet(id)).toMatchObject({ candidateId: world.walkInId, sponsorId: world.sponsorId })
  })

  it('somebody without a booking whose name was typed wrong is put right while the test runs', async () => {
    await openDesk(page, world)
    await page.getByRole('link', { name: 'Somebody without a booking' }).click()
    await page.getByRole('button', { name: /open the day$/ }).click()
    await page.getByLabel('Roster number').fill('1010')
    await page.getByLabel('Family name').fill('Brant')
    await page.getByText('sword', { exact: true }).click()
    await page.getByRole('button', { name: /start the test/ }).click()
    await markCorrect(page, 1, 2)
    await page.getByText('not found or not taken: put it right under More.').waitFor()
    await page.getByRole('button', { name: 'More', exact: true }).click()
    await page.getByLabel('Family name').fill('Brandt')
    expect(await axeViolations(page)).toEqual([])
    await page.getByRole('button', { name: 'Put it right' }).click()
    await page.getByText('Put right on this phone').waitFor()
    await page.getByText('not found or not taken').waitFor({ state: 'detached' })
    await page.getByRole('button', { name: 'Back to the sheet' }).click()
    await page.getByText('Brandt').first().waitFor()
    await finishSheet(page, 3)
    await page.getByText(/^Counted as attempt 1: GO/).waitFor()
    const id = new URL(page.url()).pathname.split('/').at(-1)!
    expect(await world.sheet(id)).toMatchObject({ candidateId: world.walkInId, sponsorId: world.sponsorId })
    const booked = await world.app.office.get<{ items: { id: string; state: string }[] }>(
      `/api/bookings?testDayId=${world.testDayId}`,
    )
    expect(booked.items.find((one) => one.id === id)).toMatchObject({ state: 'tested' })
  })

  it('the fault that the unit is marked for most is offered first', async () => {
    const { minors, majors } = standing
    const draw = minors.find(({ code }) => code === 'draw')!
    const last = draw.faults.at(-1)!
    await putSheet(world.app.office, {
      standard: standing.code,
      standardVersion: 1,
      arm: 'sword',
      candidateId: world.walkInId,
      sponsorId: world.sponsorId,
      graderId: world.graderId,
      startedAt: '2026-06-10T09:00:00Z',
      finishedAt: '2026-06-10T09:30:00Z',
      majors: majors.map(({ code }) => ({ code, mark: 'GO' as const })),
      minors: minors.map(({ code }) => ({
        code,
        trials: ['incorrect' as const, 'correct' as const, 'correct' as const],
        faults: code === 'draw' ? [{ trial: 1, code: last.code }] : [],
      })),
    })
    const studied = page.waitForResponse((response) => response.url().includes('/api/study/') && response.ok())
    await openDesk(page, world)
    await studied
    await phone.setOffline(true)
    await startSheet(page)
    const faults = page.getByRole('list', { name: 'Faults' }).getByRole('listitem')
    expect(await faults.first().textContent()).toContain(last.title)
    expect(await faults.count()).toBe(draw.faults.length)
  })

  it('forty sheets wait and go out once each, in order, though the server goes away half-way', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await phone.setOffline(true)
    await finishSheet(page)
    await waitingSheets(page, 39)
    await page.goto(`${world.url}/`)
    await page.getByText('40 sheets on this phone, not yet sent').waitFor()
    let answered = 0
    await phone.route('**/api/sheets/*', async (route) => {
      answered += 1
      if (answered % 9 === 0) return route.abort()
      // The server stores it, and its answer is lost.
      if (answered % 5 === 0) {
        await route.fetch()
        return route.abort()
      }
      return route.continue()
    })
    await phone.setOffline(false)
    while (!(await page.getByText('Every closed sheet is sent').isVisible())) {
      if (
        await sendNow(page)
          .isEnabled({ timeout: 1000 })
          .catch(() => false)
      )
        await sendNow(page)
          .click({ timeout: 1000 })
          .catch(() => undefined)
      await page.waitForTimeout(100)
    }
    const stored = await onServer()
    expect(stored).toHaveLength(40)
    expect(new Set(stored).size).toBe(40)
  })

  it('a session that has run out stops no test, and signing in again sends what waits', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await markCorrect(page, 1, 3)
    await phone.clearCookies()
    await finishSheet(page, 4)
    await page.getByText(/1 sheet on this phone, not yet sent: sign in to send it/).waitFor()
    expect(await onServer()).toEqual([])
    await signInByHand(page, world)
    await page.getByText('Every closed sheet is sent').waitFor()
    expect(await onServer()).toEqual([`${world.bookings[0]} GO`])
  })

  it('with a second factor it is the same: it is asked for when the network is back, and nothing before', async () => {
    const elsewhere = createClient(world.app.app.server)
    await elsewhere.tries('POST', '/api/session', { name: 'grader', password: PASSWORD })
    const app = await setUpApp(world.app, elsewhere)
    world.app.clock.now = new Date(world.app.clock.now.getTime() + 60_000)
    await openDesk(page, world)
    await startSheet(page)
    await markCorrect(page, 1, 3)
    await phone.clearCookies()
    await phone.setOffline(true)
    await finishSheet(page, 4)
    await phone.setOffline(false)
    await page.getByText(/1 sheet on this phone, not yet sent: sign in to send it/).waitFor()
    await signInByHand(page, world)
    await page.getByRole('heading', { name: 'Now your second factor.' }).waitFor()
    expect(await onServer()).toEqual([])
    await page.getByLabel('Code').fill(app.code())
    await page.getByRole('button', { name: 'Sign in' }).click()
    await page.getByText('Every closed sheet is sent').waitFor()
    expect(await onServer()).toEqual([`${world.bookings[0]} GO`])
  })

  it('whoever has to set up a second factor first loses nothing: the sheet waits for it', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await phone.clearCookies()
    await finishSheet(page)
    await world.app.sql("INSERT INTO factor_rule (role, from_day) VALUES ('grader', '2026-06-17')")
    await signInByHand(page, world)
    await page.getByRole('button', { name: 'Set up an authenticator app' }).click()
    const key = (await page.locator('.factor-key').textContent())!.replaceAll(' ', '')
    await page.goto(`${world.url}/grade/${world.bookings[0]}`)
    await page.getByText(/1 sheet on this phone, not yet sent/).waitFor()
    expect(await onServer()).toEqual([])
    await page.goto(`${world.url}/`)
    await page.getByRole('button', { name: 'Set up an authenticator app' }).click()
    const next = (await page.locator('.factor-key').textContent())!.replaceAll(' ', '')
    expect(next).not.toBe(key)
    await page.getByLabel('The code it shows now').fill(codeOf(next, world.app.clock.now))
    await page.getByRole('button', { name: 'Set it up' }).click()
    await page.getByRole('button', { name: 'I have them' }).click()
    await page.getByText('Every closed sheet is sent').waitFor()
    expect(await onServer()).toEqual([`${world.bookings[0]} GO`])
  })

  it('another account on the phone neither sees nor sends them, and signing out says what stays', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await phone.setOffline(true)
    await finishSheet(page)
    await phone.route('**/api/sheets/*', (route) => route.abort())
    await phone.setOffline(false)
    await page.goto(`${world.url}/desk/grader`)
    await page.getByRole('button', { name: 'Menu' }).click()
    await page.getByRole('button', { name: 'grader' }).last().click()
    await page.getByText(/1 sheet on this device is not sent yet/).waitFor()
    await page.getByRole('button', { name: 'Sign out', exact: true }).click()
    await page
      .getByRole('alert')
      .getByText(/Nobody else on this device sees or sends them/)
      .waitFor()
    await page.getByRole('button', { name: 'Sign out all the same' }).click()
    await page.getByRole('button', { name: 'Sign in' }).waitFor()
    await phone.unroute('**/api/sheets/*')
    await signInOn(phone, world, 'other')
    await page.goto(`${world.url}/desk/grader`)
    await page.getByText('Nobody is booked with you today.').waitFor()
    await page
      .getByText('1 sheet of grader waits on this phone and goes out when that account signs in here.')
      .waitFor()
    await page.goto(`${world.url}/grade/${world.bookings[0]}`)
    await page.getByText('This sheet is not on this phone.').waitFor()
    expect(await onServer()).toEqual([])
    await signInOn(phone, world, 'grader')
    await page.goto(`${world.url}/desk/grader`)
    await page.getByText('Every closed sheet is sent').waitFor()
    expect(await onServer()).toEqual([`${world.bookings[0]} GO`])
  })
})

describe('one booking on two phones', () => {
  it('tells the second who has it, and keeps its sheet for the office', async () => {
    const other = await newPhone(browser)
    await signInOn(other, world)
    const there = await pageOn(other)
    // Graded at another moment: else both phones would send one and the same sheet.
    await there.clock.setFixedTime(new Date(Date.parse(NOW) + 20_000))
    await openDesk(there, world)
    await other.setOffline(true)
    await startSheet(there)
    await there.getByRole('button', { name: 'Incorrect', exact: true }).waitFor()
    await openDesk(page, world)
    await startSheet(page)
    await finishSheet(page)
    await page.getByText(/^Counted as attempt 1: GO/).waitFor()
    await finishSheet(there)
    await other.setOffline(false)
    await there.getByText(/A sheet of this test has come in from another phone already/).waitFor()
    await there.getByText('That sheet was graded by you, came to GO and has 13 measures GO.').waitFor()
    expect(await there.getByText(world.bookings[0]).count()).toBe(0)
    expect(await axeViolations(there)).toEqual([])
    await there.getByRole('button', { name: /^It is the same test twice/ }).click()
    await there
      .getByText(/Stored/)
      .first()
      .waitFor()
    expect((await onServer()).map((one) => one.split(' ')[1]).sort()).toEqual(['GO', 'VOID'])
    await other.close()
  })
})

describe('whatever happens in the middle of a sheet', () => {
  it('a killed browser comes back at the same call, with every mark that was shown', async () => {
    const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-phone-'))
    const settings = { viewport: screens.phone, isMobile: true, hasTouch: true, timezoneId: 'UTC' }
    const first = await openProfile(folder, settings)
    await signInOn(first, world)
    const before = await pageOn(first)
    await openDesk(before, world)
    await startSheet(before)
    await markCorrect(before, 1, 7)
    await atCall(before, 8)
    await seen(before)
    await before.getByRole('button', { name: 'Incorrect', exact: true }).click()
    await atCall(before, 9)
    // As when the phone's battery dies: nothing is told to the page.
    const session = await first.newCDPSession(before)
    await session.send('Browser.crash').catch(() => undefined)
    await first.close().catch(() => undefined)
    const second = await openProfile(folder, settings)
    try {
      // What keeps somebody signed in may be lost with the browser.
      await signInOn(second, world)
      const after = await pageOn(second)
      // The test that was running is the first thing on the desk.
      await after.goto(`${world.url}/desk/grader`)
      await after.getByRole('heading', { name: 'CPL Amadi’s test is under way: 8 calls marked.' }).waitFor()
      await after.getByRole('link', { name: 'Go on with this test' }).click()
      await atCall(after, 9)
      expect(await after.getByRole('button', { name: /^All calls: 8 marked/ }).isVisible()).toBe(true)
    } finally {
      await second.close()
      fs.rmSync(folder, { recursive: true, force: true })
    }
  })

  it('a second window says that the first one writes, and takes over when it is told to', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await markCorrect(page, 1, 2)
    const second = await pageOn(phone)
    await second.goto(page.url())
    await second.getByText('This sheet is open in another window, which writes it.').waitFor()
    expect(await axeViolations(second)).toEqual([])
    await second.getByRole('button', { name: 'Go on here instead' }).click()
    await atCall(second, 3)
    await page.getByText('This sheet is open in another window, which writes it.').waitFor()
    await markCorrect(second, 3, 4)
    await atCall(second, 5)
    await second.close()
    await atCall(page, 5)
  })

  it('a newer version of the app waits until the sheet is closed', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await markCorrect(page, 1, 2)
    let navigations = 0
    page.on('framenavigated', () => {
      navigations += 1
    })
    // Another byte makes it another version, for the server hands out what stands in the file.
    const worker = path.resolve(import.meta.dirname, '../../dist/web/sw.js')
    const built = fs.readFileSync(worker, 'utf8')
    onTestFinished(() => fs.writeFileSync(worker, built))
    fs.writeFileSync(worker, `${built}\n`)
    await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready
      await registration.update()
      while (!registration.waiting) await new Promise((resolve) => setTimeout(resolve, 50))
    })
    await markCorrect(page, 3, 6)
    expect(navigations).toBe(0)
    await finishSheet(page, 7)
    await page.getByText(/^Counted/).waitFor()
    await page.getByRole('link', { name: 'To the list' }).click()
    await page.getByText('A newer version of Reviewstand is here.').waitFor()
    await page.getByRole('button', { name: 'Load it now' }).click()
    await endFormerWorker(page)
    await page.getByText('One candidate to test today; one is through.').waitFor()
    expect(
      await page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.waiting ?? null),
    ).toBeNull()
  })

  it('a clock that is wrong by a day holds the sheet, which is stored all the same', async () => {
    await openDesk(page, world)
    await startSheet(page)
    await page.clock.setFixedTime(new Date('2026-06-18T14:00:00Z'))
    await finishSheet(page)
    await page.getByText(/held for the training office/).waitFor()
    expect(await axeViolations(page)).toEqual([])
    const { state, violations } = await world.sheet(world.bookings[0])
    expect(state).toBe('held')
    expect(violations.map(({ rule }) => rule)).toContain('clock-skew')
  })

  it('a clock that is wrong from the start is said at once, and the sheet has the times of the server', async () => {
    await page.clock.setFixedTime(new Date('2026-06-18T16:00:00Z'))
    await openDesk(page, world)
    await page
      .getByText(/^This phone’s clock is 26 hours ahead\. By the server it is Wednesday 17 June, 14:00/)
      .waitFor()
    // The day of the list is the server's.
    await startSheet(page)
    await finishSheet(page)
    await page.getByText(/held for the training office/).waitFor()
    const { startedAt, day, notes, violations } = await world.sheet(world.bookings[0])
    expect([startedAt.slice(0, 16), day]).toEqual(['2026-06-17T14:00', '2026-06-17'])
    expect(notes).toBe('The phone’s clock was 26 hours ahead; times are by the server’s clock.')
    expect(violations.map(({ rule }) => rule)).toContain('clock-skew')
  })
})
