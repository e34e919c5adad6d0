import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'
import type { Browser, Page } from 'playwright-core'
import type { MailPost } from '../../server/context/mail-post.ts'
import { openPage, type screens } from '../support/browser.ts'
import { buildTestApp, type TestApp } from '../support/build-test-app.ts'
import { carryOver, makeCertification, makeSoldier, makeUnit, putSheet } from '../support/factories.ts'
import { signIn } from '../support/sign-in.ts'

/** A Wednesday. The server and every page take it for now. */
export const NOW = '2026-06-17T14:00:00Z'

const standing = JSON.parse(
  fs.readFileSync(path.join(import.meta.dirname, '../cases/standard-standing.json'), 'utf8'),
) as { code: string; majors: { code: string }[]; minors: { code: string }[] }

/** A small guard: one platoon with its people, a standard, a certification, a ceremony and some sheets. */
export interface World {
  readonly app: TestApp
  readonly url: string
  readonly platoonId: string
  readonly candidateId: string
  /** Whose accounts a sponsor, a grader and a soldier have. */
  readonly soldierOf: { readonly sponsor: string; readonly grader: string; readonly soldier: string }
  readonly ceremonyId: string
  readonly standard: string
  /** A sheet that is held, without a sponsor on it. */
  readonly heldId: string
  close(): Promise<void>
}

/** Marks under the standing manual: the first `noGo` minors NO-GO, all else GO. */
const marks = (noGo: number) => ({
  majors: standing.majors.map(({ code }) => ({ code, mark: 'GO' as const })),
  minors: standing.minors.map(({ code }, index) => ({
    code,
    trials:
      index < noGo
        ? (['incorrect', 'incorrect'] as const).slice()
        : (['correct', 'incorrect', 'correct'] as const).slice(),
  })),
})

export async function buildWorld(more: { mail?: MailPost } = {}): Promise<World> {
  const app = await buildTestApp({ now: NOW, timeZone: 'America/New_York', ...more })
  const { office } = app
  const timeZone = 'America/New_York'
  const top = await makeUnit(office, { name: 'Calloway Point Ceremonial Battalion', timeZone })
  const company = await makeUnit(office, { name: 'A Company', kind: 'company', parentId: top, timeZone: null })
  const platoonId = await makeUnit(office, { name: '2nd Platoon', kind: 'platoon', parentId: company, timeZone: null })
  const { id } = await office.post('/api/standards', standing)
  await office.post(`/api/standards/${id}/publish`, undefined, 200)
  await makeCertification(office, { code: 'sword', title: 'Sword', standards: [standing.code], arms: ['sword'] })

  const soldier = (rosterNumber: string, grade: string, familyName: string, givenName: string) =>
    makeSoldier(office, platoonId, { rosterNumber, grade, familyName, givenName, arms: ['sword'] })
  const candidateId = await soldier('1007', 'CPL', 'Amadi', 'Rafe')
  const sponsorId = await soldier('1003', 'SGT', 'Ashdown', 'Mirela')
  const graderId = await soldier('1002', 'SFC', 'Quintrell', 'Bram')
  const lapsedId = await soldier('1008', 'CPL', 'Brandt', 'Louisa')
  const newcomerId = await soldier('1009', 'CPL', 'Nwosu', 'Ines')
  for (const one of [sponsorId, graderId]) await carryOver(office, one, 'sword')
  await carryOver(office, lapsedId, 'sword', { awardedOn: '2025-01-10', validThrough: '2026-01-09' })
  for (const one of [candidateId, newcomerId]) {
    await office.post(`/api/soldiers/${one}/sponsorships`, { sponsorId, from: '2026-01-01' })
  }

  const sheet = (day: string, noGo: number, more = {}) => ({
    standard: standing.code,
    standardVersion: 1,
    arm: 'sword',
    candidateId,
    sponsorId,
    graderId,
    startedAt: `${day}T09:00:00-04:00`,
    finishedAt: `${day}T09:31:00-04:00`,
    ...marks(noGo),
    ...more,
  })
  await putSheet(office, sheet('2026-05-05', 5))
  await putSheet(office, sheet('2026-05-26', 3))
  const heldId = randomUUID()
  await putSheet(office, sheet('2026-06-09', 0, { candidateId: lapsedId, sponsorId: null }), heldId)

  const post = (title: string, row: number, place: number, soldierId: string | null) => ({
    title,
    row,
    place,
    certification: 'sword',
    soldierId,
  })
  const { id: ceremonyId } = await office.post('/api/ceremonies', {
    title: 'Founders’ Parade',
    unitId: top,
    startsAt: '2026-06-27T10:00:00-04:00',
    endsAt: '2026-06-27T11:30:00-04:00',
    posts: [
      post('Commander of troops', 1, 1, graderId),
      post('Colours, right guard', 2, 1, candidateId),
      post('Colours, left guard', 2, 2, null),
    ],
  })
  return {
    app,
    url: app.app.listeningOrigin,
    platoonId,
    candidateId,
    soldierOf: { sponsor: sponsorId, grader: graderId, soldier: candidateId },
    ceremonyId,
    standard: standing.code,
    heldId,
    close: () => app.close(),
  }
}

interface Seen {
  /** Name of the account; `office` unless told otherwise. */
  account?: string
  screen?: keyof typeof screens
  theme?: 'light' | 'dark' | 'sun'
}

/** Opens a page of the product as the training office, at the world's time. */
export async function openAsOffice(world: World, browser: Browser, address: string, seen: Seen = {}): Promise<Page> {
  const page = await openPage(browser, `${world.url}/sign-in`, seen.screen ?? 'desktop')
  await page.clock.setFixedTime(new Date(NOW))
  await page.evaluate((theme) => localStorage.setItem('reviewstand.theme', theme), seen.theme ?? 'light')
  await signIn(page, world.url, seen.account ?? 'office')
  await page.goto(world.url + address)
  await settled(page)
  return page
}

/** Opens a page of any product as one of its accounts, at the time of this machine. In: where the product is, whom, which page. */
export async function openSignedIn(
  browser: Browser,
  origin: string,
  account: string,
  address: string,
  screen: keyof typeof screens = 'desktop',
): Promise<Page> {
  const page = await openPage(browser, `${origin}/sign-in`, screen)
  await signIn(page, origin, account)
  await page.goto(origin + address)
  await settled(page)
  return page
}

/** Waits until the page shows its answer and no part of it is loading. */
export async function settled(page: Page): Promise<void> {
  await page.waitForSelector('#main:not([aria-busy]) h1')
  await page.waitForFunction(() => document.querySelector('[aria-busy=true]') === null)
}
