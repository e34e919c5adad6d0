import fs from 'node:fs'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import pg from 'pg'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import type { Push } from '../../server/context/push.ts'
import type { SheetDetail } from '../../server/contract/sheets/sheets.ts'
import { screens } from '../support/browser.ts'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { carryOver, makeCertification, makeSoldier, makeUnit } from '../support/factories.ts'
import { signIn } from '../support/sign-in.ts'

/** A Wednesday. The server and every page take it for now. */
export const NOW = '2026-06-17T14:00:00Z'

const standing = JSON.parse(
  fs.readFileSync(path.join(import.meta.dirname, '../cases/standard-standing.json'), 'utf8'),
) as { code: string }

/** A test day with one grader and two candidates booked, another account on the same phone, and somebody without a booking. */
export interface FieldWorld {
  readonly app: TestApp
  readonly url: string
  readonly candidateId: string
  readonly sponsorId: string
  readonly graderId: string
  readonly testDayId: string
  /** Bookings of CPL Amadi and CPL Nwosu; the sheet of a booking has its id. */
  readonly bookings: readonly [string, string]
  readonly walkInId: string
  sheet(id: string): Promise<SheetDetail>
  close(): Promise<void>
}

export async function buildFieldWorld({ push }: { push?: Push } = {}): Promise<FieldWorld> {
  const timeZone = 'UTC'
  const app = await buildTestApp({ now: NOW, timeZone, ...(push && { push }) })
  const { office } = app
  const unitId = await makeUnit(office, { name: 'Calloway Point Ceremonial Battalion', timeZone })
  const { id } = await office.post('/api/standards', standing)
  await office.post(`/api/standards/${id}/publish`, undefined, 200)
  await makeCertification(office, { code: 'sword', title: 'Sword', standards: [standing.code], arms: ['sword'] })
  const soldier = (rosterNumber: string, grade: string, familyName: string, givenName: string) =>
    makeSoldier(office, unitId, { rosterNumber, grade, familyName, givenName, arms: ['sword'] })
  const candidateId = await soldier('1007', 'CPL', 'Amadi', 'Rafe')
  const secondId = await soldier('1009', 'CPL', 'Nwosu', 'Ines')
  const sponsorId = await soldier('1003', 'SGT', 'Ashdown', 'Mirela')
  const graderId = await soldier('1002', 'SFC', 'Quintrell', 'Bram')
  const otherId = await soldier('1012', 'SFC', 'Okonjo', 'Sela')
  const walkInId = await soldier('1010', 'CPL', 'Brandt', 'Louisa')
  for (const one of [sponsorId, graderId, otherId]) await carryOver(office, one, 'sword')
  for (const one of [candidateId, secondId, walkInId]) {
    await office.post(`/api/soldiers/${one}/sponsorships`, { sponsorId, from: '2026-01-01' })
  }
  const { id: testDayId } = await office.post('/api/test-days', { on: '2026-06-17', unitId, place: 'South field' })
  const book = async (candidate: string, startsAt: string) =>
    (
      await office.post(`/api/test-days/${testDayId}/bookings`, {
        candidateId: candidate,
        standard: standing.code,
        graderId,
        startsAt,
      })
    ).id
  const bookings = [
    await book(candidateId, '2026-06-17T14:00:00Z'),
    await book(secondId, '2026-06-17T14:45:00Z'),
  ] as const
  await app.signedIn({ name: 'grader', roles: ['grader'], soldierId: graderId })
  await app.signedIn({ name: 'other', roles: ['grader'], soldierId: otherId })
  await app.signedIn({ name: 'coach', roles: ['sponsor'], soldierId: sponsorId })
  return {
    app,
    url: app.app.listeningOrigin,
    candidateId,
    sponsorId,
    graderId,
    testDayId,
    bookings,
    walkInId,
    sheet: (sheetId) => office.get(`/api/sheets/${sheetId}`),
    async close() {
      await untilIdle(app)
      await app.close()
    },
  }
}

/** Waits until the server is through with what a phone asked for before it went. */
async function untilIdle({ databaseUrl }: TestApp): Promise<void> {
  const client = new pg.Client({ connectionString: databaseUrl })
  await client.connect()
  const busy =
    "SELECT pid FROM pg_stat_activity WHERE datname = current_database() AND state <> 'idle' AND pid <> pg_backend_pid()"
  while ((await client.query(busy)).rows.length > 0) await setTimeout(50)
  await client.end()
}

/** A phone with nothing on it: every page of it shares what is kept. */
export const newPhone = (browser: Browser): Promise<BrowserContext> =>
  browser.newContext({
    viewport: screens.phone,
    isMobile: true,
    hasTouch: true,
    deviceScaleFactor: 2,
    reducedMotion: 'reduce',
    timezoneId: 'UTC',
  })

/** A page of a phone, at the world's time. */
export async function pageOn(phone: BrowserContext): Promise<Page> {
  const page = await phone.newPage()
  await page.clock.setFixedTime(new Date(NOW))
  return page
}

/** Signs a phone in, as the sign-in page would. */
export async function signInOn(phone: BrowserContext, { url }: FieldWorld, name = 'grader'): Promise<void> {
  await signIn(phone, url, name)
}

/** Opens the grader's desk and waits until the day's list and the app are on the phone. */
export async function openDesk(page: Page, { url }: FieldWorld): Promise<void> {
  await page.goto(`${url}/desk/grader`)
  await page
    .getByText(/to test today|booked with you today/)
    .first()
    .waitFor()
  await page.getByText('Ready without a network.').waitFor()
}

/** From the desk to the first call of the first candidate to come. */
export async function startSheet(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Start', exact: true }).first().click()
  const open = page.getByRole('button', { name: /open the day$/ })
  const start = page.getByRole('button', { name: /start the test/ })
  await open.or(start).first().waitFor()
  if (await open.isVisible()) await open.click()
  await start.click()
  await atCall(page, 1)
}

/** Waits until a call is shown. */
export const atCall = (page: Page, call: number): Promise<void> =>
  page.locator('.call-where', { hasText: new RegExp(`^Call ${call} of 39`) }).waitFor()

/** Marks so many calls correct, each once the one before is behind. */
export async function markCorrect(page: Page, from: number, through: number): Promise<void> {
  for (let call = from; call <= through; call++) {
    await atCall(page, call)
    await seen(page)
    await page.getByRole('button', { name: 'Correct', exact: true }).click()
  }
}

/** Waits until the call that is shown is no longer too new to be marked. */
export const seen = (page: Page): Promise<void> => page.locator('.grade:not([data-fresh])').waitFor()

/** Marks all that is left correct and closes the sheet. */
export async function finishSheet(page: Page, from = 1): Promise<void> {
  await markCorrect(page, from, 39)
  await page.getByRole('button', { name: /close the sheet/ }).click()
  await page.getByRole('heading', { name: /: GO: 13 of 13/ }).waitFor()
}

/** Puts so many more sheets like the one that waits on the phone, each closed a second after the one before. */
export const waitingSheets = (page: Page, more: number): Promise<void> =>
  page.evaluate(async (count) => {
    const database = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('reviewstand')
      request.onsuccess = () => resolve(request.result)
    })
    const store = () => database.transaction('sheets', 'readwrite').objectStore('sheets')
    const [first] = await new Promise<Record<string, unknown>[]>((resolve) => {
      const request = store().getAll()
      request.onsuccess = () => resolve(request.result)
    })
    for (let next = 1; next <= count; next++) {
      const closedAt = new Date(Date.parse(first!.closedAt as string) + next * 1000).toISOString()
      await new Promise((resolve) => {
        store().put({ ...first, id: crypto.randomUUID(), closedAt }).onsuccess = resolve
      })
    }
  }, more)

/** The sheets that the phone has, by id. */
export const sheetsOn = (page: Page): Promise<{ id: string; state: string }[]> =>
  page.evaluate(async () => {
    const database = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('reviewstand')
      request.onsuccess = () => resolve(request.result)
    })
    const request = database.transaction('sheets').objectStore('sheets').getAll()
    await new Promise((resolve) => {
      request.onsuccess = resolve
    })
    return (request.result as { id: string; state: string }[])
      .map(({ id, state }) => ({ id, state }))
      .sort((a, b) => a.id.localeCompare(b.id))
  })
