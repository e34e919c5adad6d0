import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Slot } from '../../server/contract/test-days/test-days.ts'
import { axeViolations, openBrowser, type screens } from '../support/browser.ts'
import { carryOver, makeSoldier } from '../support/factories.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

let world: World
let browser: Browser
const sizes = ['desktop', 'phone'] as const satisfies (keyof typeof screens)[]

/** A retreat with three sentries and two soldiers for them; a third could pass a test before. */
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
  const { office, signedIn } = world.app
  for (const [name, number] of [
    ['Fairweather', '2001'],
    ['Oakes', '2002'],
  ] as const) {
    const id = await makeSoldier(office, world.platoonId, {
      rosterNumber: number,
      familyName: name,
      givenName: 'Pat',
      grade: 'PFC',
      arms: ['sword'],
    })
    await carryOver(office, id, 'sword')
  }
  await office.post('/api/test-days', { on: '2026-06-20', unitId: world.platoonId, place: 'Hall' })
  // One retest is booked with a grader, another can be planned.
  const { id: testDay } = await office.post('/api/test-days', {
    on: '2026-06-28',
    unitId: world.platoonId,
    place: 'Hall',
  })
  const slots = { from: '09:00', to: '10:00', minutes: 30, graderIds: [world.soldierOf.grader] }
  const { items } = await office.post<{ items: Slot[] }>(`/api/test-days/${testDay}/slots`, slots)
  await office.post(`/api/test-days/${testDay}/bookings`, {
    candidateId: world.candidateId,
    standard: world.standard,
    slotId: items[0]!.id,
  })
  await signedIn({ name: 'leader', roles: ['leader'], unitId: world.platoonId })
  await signedIn({ name: 'commander', roles: ['commander'], unitId: world.platoonId })
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

const retreat = async (day: string): Promise<string> => {
  const sentry = (place: number) => ({
    title: `Sentry ${place}`,
    row: 2,
    place,
    certification: 'sword',
    grades: ['PFC', 'CPL'],
  })
  const { id } = await world.app.office.post('/api/ceremonies', {
    title: `Retreat of ${day}`,
    unitId: world.platoonId,
    startsAt: `${day}T17:00:00-04:00`,
    endsAt: `${day}T17:30:00-04:00`,
    posts: [sentry(1), sentry(2), sentry(3)],
  })
  return id
}

const open = (address: string, account: string, screen: (typeof sizes)[number]): Promise<Page> =>
  openAsOffice(world, browser, address, { account, screen })

describe.each(sizes)('on the %s', (screen) => {
  it('a leader names all who are proposed with one click on the desk, and takes it back', async () => {
    const day = screen === 'desktop' ? '2026-06-22' : '2026-06-23'
    await retreat(day)
    const page = await open('/', 'leader', screen)
    // The next ceremony stands open, the one after that is folded.
    const isNext = screen === sizes[0]
    const part = isNext
      ? page.getByRole('region', { name: `Retreat of ${day}` })
      : page
          .getByRole('listitem')
          .filter({ hasText: `Retreat of ${day}` })
          .first()
    if (!isNext) {
      await part.getByText(`Retreat of ${day}`).first().click()
      await part.getByText('Short', { exact: true }).click()
    }
    await part.getByText('Somebody can stand at two of the three short posts.').waitFor()
    const said = (words: string | RegExp) => part.filter({ hasText: words }).waitFor()
    await said('Proposed: PFC Fairweather, Pat, has not stood in 90 days')
    await said('Sentry 1 to 3 have two soldiers between them: PFC Fairweather, Pat and PFC Oakes, Pat.')
    await said(/CPL \w+, \w+ if passed: .*a slot is free Sat 20 Jun; .*such soldiers? pass/)
    await part.getByRole('button', { name: 'Name all 2 proposed' }).click()
    await part.getByText('2 soldiers are named as proposed.').waitFor()
    const filled = part.locator('.desk-posts')
    await filled.getByText('2 of 3 filled').waitFor()
    expect(await axeViolations(page)).toEqual([])
    await part.getByRole('button', { name: 'Undo' }).click()
    await filled.getByText('0 of 3 filled').waitFor()
    await page.context().close()
  })

  it('on the ceremony’s page one is named beside the post, then the rest', async () => {
    const day = screen === 'desktop' ? '2026-06-25' : '2026-06-26'
    const id = await retreat(day)
    const page = await open(`/ceremonies/${id}`, 'leader', screen)
    await page.getByRole('button', { name: 'Name PFC Fairweather, Pat: Sentry 1' }).click()
    await page.getByText('PFC Fairweather, Pat is named to Sentry 1.').waitFor()
    await page.getByRole('button', { name: 'Name the one proposed' }).click()
    await page.getByRole('heading', { level: 1, name: /^One of three posts is not filled/ }).waitFor()
    await page.getByText('None of yours can stand at the short post.').waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.context().close()
  })

  it('a commander sees whether a day will be met, and what such forecasts were worth', async () => {
    const page = await open('/', 'commander', screen)
    const part = page.getByRole('region', { name: 'Ready on the days ahead' })
    await part.getByRole('link', { name: /Sword/ }).first().click()
    await page.waitForURL('**/stand/ahead?**')
    await settled(page)
    const answer = await page.getByRole('heading', { level: 1 }).textContent()
    expect(answer).toMatch(/^On \w+ \d+ June, Sword: \d+ of \d+ expected/)
    await page.getByRole('table', { name: 'Forecasts of past month-ends and what came' }).waitFor()
    expect(await page.locator('main').textContent()).toMatch(/The interval held \w+ of twelve times/)
    expect(await axeViolations(page)).toEqual([])
    await page.context().close()
  })

  it('what if a ceremony moved, a grader were away, a plan were booked: side by side, and kept by the link', async () => {
    const [day, to] = screen === 'desktop' ? ['2026-06-29', '2026-07-01'] : ['2026-06-30', '2026-07-02']
    await retreat(day)
    const address = `/stand/ahead?unitId=${world.platoonId}&certification=sword&on=${day}`
    const page = await open(address, 'office', screen)
    const part = page.getByRole('region', { name: 'What if' })
    const table = part.getByRole('table', { name: 'As it is booked and what if' })
    await part.getByRole('group', { name: 'A ceremony moved' }).getByLabel('To').fill(to)
    await table.locator('[data-label^="What if, "]').first().waitFor()
    await part.getByRole('group', { name: 'A grader away' }).getByLabel('Who, until then').selectOption({ index: 1 })
    await table.filter({ hasText: /With a test booked\s*1\s*0/ }).waitFor()
    expect(await axeViolations(page)).toEqual([])
    await page.reload()
    await table.filter({ hasText: /With a test booked\s*1\s*0/ }).waitFor()
    await part.getByRole('link', { name: 'Move the ceremony' }).waitFor()
    await part.getByRole('link', { name: 'Enter the grader’s absence' }).waitFor()
    await part.getByRole('button', { name: 'As it is booked', exact: true }).click()
    await table.waitFor({ state: 'detached' })
    await part.getByRole('button', { name: 'With all open retests planned until then' }).click()
    await table.waitFor()
    await part.getByRole('link', { name: 'See and book the plan' }).click()
    await page.getByRole('region', { name: 'How good it is' }).waitFor()
    await page.context().close()
  })
})
