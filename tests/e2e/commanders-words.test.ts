import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CommandersWords } from '../../server/contract/readiness/commanders-words.ts'
import { setUpApp } from '../support/authenticator-app.ts'
import { axeViolations, openBrowser, openPage, type screens } from '../support/browser.ts'
import { PASSWORD } from '../support/build-test-app.ts'
import { makeCertification, makeSoldier, putSheet } from '../support/factories.ts'
import { outcomeOnly, times } from '../support/sheet-body.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

let world: World
let browser: Browser
let code: () => string
beforeAll(async () => {
  world = await buildWorld()
  const { office } = world.app
  await makeCertification(office, {
    code: 'signed',
    title: 'Sword, signed',
    standards: [world.standard],
    arms: ['sword'],
    approval: 'required',
    extensionDays: 40,
  })
  for (const [at, familyName] of ['Ferris', 'Galloway', 'Hartnell', 'Ibarra'].entries()) {
    const candidateId = await makeSoldier(office, world.platoonId, {
      familyName,
      givenName: 'Lee',
      grade: 'CPL',
      arms: ['sword'],
    })
    await office.post(`/api/soldiers/${candidateId}/sponsorships`, {
      sponsorId: world.soldierOf.sponsor,
      from: '2026-01-01',
    })
    const { sponsor: sponsorId, grader: graderId } = world.soldierOf
    const sheet = {
      standard: world.standard,
      standardVersion: 1,
      arm: 'sword',
      candidateId,
      sponsorId,
      graderId,
      ...times(`2026-06-0${at + 1}`),
      ...outcomeOnly('GO'),
    }
    await putSheet(office, sheet)
  }
  const commander = await world.app.signedIn({ name: 'commander', roles: ['commander'], unitId: world.platoonId })
  const app = await setUpApp(world.app, commander)
  code = app.code
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

const picture = async (page: Page, name: string) => {
  const folder = process.env.PICTURES
  if (folder) await page.screenshot({ path: `${folder}/${name}.png` })
}

const later = (minutes: number) => {
  world.app.clock.now = new Date(world.app.clock.now.getTime() + minutes * 60_000)
}

/** Signs a commander in, whose second factor was shown longer ago than it is believed. */
async function openAs(screen: keyof typeof screens, address: string): Promise<Page> {
  later(1)
  const page = await openPage(browser, 'about:blank', screen)
  await page.clock.setFixedTime(new Date(NOW))
  await page.goto(world.url + address)
  await page.getByLabel('Name', { exact: true }).fill('commander')
  await page.getByLabel('Password', { exact: true }).fill(PASSWORD)
  await page.getByRole('button', { name: 'Sign in', exact: true }).click()
  await page.getByLabel('Code').fill(code())
  await page.getByRole('button', { name: 'Sign in', exact: true }).click()
  await page.getByLabel('Code').waitFor({ state: 'detached' })
  await settled(page)
  later(11)
  return page
}

/** Shows once more who one is. */
async function show(page: Page, name: string): Promise<void> {
  const dialog = page.getByRole('dialog', { name: 'Is it you?' })
  await dialog.getByLabel('Code').waitFor()
  await picture(page, `${name}-identity`)
  expect(await axeViolations(page)).toEqual([])
  await dialog.getByLabel('Code').fill(code())
  await dialog.getByRole('button', { name: 'Go on' }).click()
  await dialog.waitFor({ state: 'detached' })
}

describe.each([
  ['desktop', 'Ferris', 'Galloway'],
  ['phone', 'Hartnell', 'Ibarra'],
] as const)('a commander (%s)', (screen, signed, refused) => {
  const row = (page: Page, name: string) => page.getByRole('row').filter({ hasText: name })

  it('signs what was earned, refuses with a reason, extends, and takes words back; it shows who it is to sign', async () => {
    const page = await openAs(screen, '/approvals')
    await page.getByRole('heading', { level: 1, name: /wait for a signature, the first since/ }).waitFor()
    await picture(page, `${screen}-to-sign`)
    expect(await axeViolations(page)).toEqual([])
    await page.getByRole('checkbox', { name: `Tick ${signed}` }).check()
    await page.getByRole('button', { name: 'Sign 1' }).click()
    const sign = page.getByRole('dialog', { name: 'Sign this certification?' })
    await sign.getByText(`${signed}, Lee`).waitFor()
    await picture(page, `${screen}-sign`)
    expect(await axeViolations(page)).toEqual([])
    await sign.getByRole('button', { name: 'Sign', exact: true }).click()
    await show(page, `${screen}-sign`)
    await row(page, signed).waitFor({ state: 'detached' })

    await page.getByRole('checkbox', { name: `Tick ${refused}` }).check()
    await page.getByRole('button', { name: 'Refuse 1' }).click()
    const refuse = page.getByRole('dialog', { name: 'Refuse this certification?' })
    await refuse.getByRole('button', { name: 'Refuse', exact: true }).click()
    await refuse.getByText('Say why first; the soldier is entitled to know.').waitFor()
    await picture(page, `${screen}-refuse`)
    expect(await axeViolations(page)).toEqual([])
    await refuse.getByLabel('Reason').fill('Turns up late to rehearsals.')
    await refuse.getByRole('button', { name: 'Refuse', exact: true }).click()
    await row(page, refused).waitFor({ state: 'detached' })

    const soldierId = (
      await world.app.sql<{ id: string }>('SELECT id FROM soldier WHERE family_name = $1', [signed])
    )[0]!.id
    await page.goto(`${world.url}/candidates/${soldierId}`)
    await settled(page)
    await page.getByText(/signed on Wed 17 Jun by commander\./).waitFor()
    await page.getByRole('button', { name: /^Extend Sword, signed/ }).click()
    const extend = page.getByRole('dialog', { name: /^Extend Sword, signed of/ })
    await extend.getByText(/The terms allow 40 days more/).waitFor()
    await extend.getByLabel('Reason').fill('Away with the advance party.')
    await picture(page, `${screen}-extend`)
    expect(await axeViolations(page)).toEqual([])
    await extend.getByRole('button', { name: 'Extend it' }).click()
    await page
      .getByText(/extended by 30 days on Wed 17 Jun by commander, deployment: Away with the advance party\.$/)
      .waitFor()
    await picture(page, `${screen}-words`)
    expect(await axeViolations(page)).toEqual([])

    await page
      .getByRole('listitem')
      .filter({ hasText: 'extended by' })
      .getByRole('button', { name: 'Take back' })
      .click()
    const back = page.getByRole('dialog', { name: 'Take this back?' })
    await back.getByLabel('Reason').fill('Stays after all')
    await picture(page, `${screen}-take-back`)
    await back.getByRole('button', { name: 'Take it back' }).click()
    await page.getByText(/Taken back on Wed 17 Jun: Stays after all/).waitFor()
    const words = await world.app.office.get<CommandersWords>(`/api/soldiers/${soldierId}/commanders-words`)
    expect(words).toMatchObject({
      decisions: [{ decision: 'approve', takenBack: null }],
      extensions: [{ days: 30, takenBack: { reason: 'Stays after all' } }],
    })
    await page.context().close()
  })
})

it('says on an empty list what would bring something', async () => {
  const page = await openAs('phone', '/approvals')
  await page.getByRole('heading', { level: 1, name: 'Nothing waits for a signature.' }).waitFor()
  await picture(page, 'phone-nothing-to-sign')
  expect(await axeViolations(page)).toEqual([])
  await page.context().close()
})
