import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { SheetDetail } from '../../server/contract/sheets/sheets.ts'
import { openBrowser } from '../support/browser.ts'
import { putSheet } from '../support/factories.ts'
import { secondPerson } from '../support/second-person.ts'
import { buildWorld, openAsOffice, type World } from './world.ts'

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

it('a test sent twice leads from the desk to the choice, a second person, and the sheet that was set aside', async () => {
  const { office } = world.app
  const { id: _, ...held } = await office.get<SheetDetail>(`/api/sheets/${world.heldId}`)
  const body = { ...held.revisions.at(-1)!.body, graderId: world.soldierOf.sponsor }
  const again = await putSheet(office, { ...body, startedAt: '2026-06-09T09:02:00-04:00' })
  await secondPerson(world.app)

  const page = await openAsOffice(world, browser, '/')
  await page.getByRole('link', { name: /test that may have been sent twice/ }).click()
  await page.getByRole('heading', { name: 'Perhaps one test, sent twice' }).waitFor()
  const answer = { level: 1, name: 'One test perhaps sent twice; choose which sheet stands.' } as const
  await page.getByRole('heading', answer).waitFor()
  await page.getByRole('button', { name: 'Quintrell’s sheet stands' }).click()
  await page.getByText('Say why first.').waitFor()
  await page.getByLabel('Reason, kept with the sheet').fill('Both graded the one test.')
  await page.getByRole('button', { name: 'Quintrell’s sheet stands' }).click()
  await page.getByRole('link', { name: 'waits for a second person' }).waitFor()
  await page.context().close()

  const second = await openAsOffice(world, browser, '/contested', { account: 'second person' })
  await second.getByText('Set aside as a duplicate').waitFor()
  await second.getByLabel('Reason, kept with the sheet').fill('Seen.')
  await second.getByRole('button', { name: 'Confirm it' }).click()
  await second.getByText('No amendment waits.').waitFor()
  await second.goto(`${world.url}/sheets/${again.id}`)
  await second.getByText('Set aside: it is of the same test as another sheet').waitFor()
  expect(await second.getByRole('link', { name: 'The sheet that stands' }).getAttribute('href')).toBe(
    `/sheets/${world.heldId}`,
  )
  await second.getByLabel(/If it was a test of its own/).fill('They were two.')
  await second.getByRole('button', { name: 'Judge it again' }).click()
  await second.getByText('Proposed.').waitFor()
  await second.context().close()
})
