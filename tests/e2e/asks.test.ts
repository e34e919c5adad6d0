import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { carryOver, makeSoldier, makeUnit } from '../support/factories.ts'
import { buildWorld, openAsOffice, type World } from './world.ts'

let world: World
let browser: Browser

/** Beside the platoon another one, of which two soldiers can stand with the sword. */
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
  const { office, signedIn } = world.app
  const { items } = await office.get<{ items: { id: string; kind: string }[] }>('/api/units')
  const parentId = items.find(({ kind }) => kind === 'company')!.id
  const otherId = await makeUnit(office, { name: '3rd Platoon', kind: 'platoon', parentId, timeZone: null })
  for (const [familyName, rosterNumber] of [
    ['Hollis', '3001'],
    ['Wray', '3002'],
  ] as const) {
    const soldier = { rosterNumber, familyName, givenName: 'Sam', grade: 'PFC', arms: ['sword'] }
    await carryOver(office, await makeSoldier(office, otherId, soldier), 'sword')
  }
  await signedIn({ name: 'leader', roles: ['leader'], unitId: world.platoonId })
  await signedIn({ name: 'other leader', roles: ['leader'], unitId: otherId })
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

describe.each(['desktop', 'phone'] as const)('on the %s', (screen) => {
  it('a leader asks another unit for a soldier, and its leader names one or says why not', async () => {
    const day = screen === 'desktop' ? '2026-06-25' : '2026-06-26'
    const post = (place: number) => ({
      title: `Guide ${place}`,
      row: 1,
      place,
      certification: 'sword',
      grades: ['PFC'],
    })
    const { id } = await world.app.office.post('/api/ceremonies', {
      title: `Guard of ${day}`,
      unitId: world.platoonId,
      startsAt: `${day}T17:00:00-04:00`,
      endsAt: `${day}T17:30:00-04:00`,
      posts: [post(1), post(2)],
    })
    const asking = await openAsOffice(world, browser, `/ceremonies/${id}`, { account: 'leader', screen })
    const asks = asking.getByRole('region', { name: 'Asked of other units' })
    for (const title of ['Guide 1', 'Guide 2']) {
      await asks.getByLabel('For the post').selectOption({ label: title })
      await asks.getByLabel('Unit').selectOption({ label: '3rd Platoon, A Company' })
      await asks.getByRole('button', { name: 'Ask for a soldier' }).click()
      await asks
        .getByRole('listitem')
        .filter({ hasText: `${title}, 3rd Platoon, A Company: no answer yet.` })
        .waitFor()
    }
    expect(await axeViolations(asking)).toEqual([])

    const asked = await openAsOffice(world, browser, '/notices', { account: 'other leader', screen })
    await asked
      .getByText(/Your unit is asked for a soldier: Guide 1/)
      .first()
      .waitFor()
    await asked.goto(`${world.url}/`)
    const part = asked.getByRole('region', { name: 'Asked of you' })
    const first = part.locator('.desk-asked').filter({ hasText: 'Guide 1' })
    const stood = screen === 'desktop' ? 'has not stood' : 'stood once'
    await first.getByLabel('Who').selectOption({ label: `PFC Wray, Sam, ${stood} in 90 days` })
    expect(await axeViolations(asked)).toEqual([])
    await first.getByRole('button', { name: 'Yes, name them' }).click()
    await part.getByText(/is told: yes, for Guide 1/).waitFor()
    const second = part.locator('.desk-asked').filter({ hasText: 'Guide 2' })
    await second.getByLabel('Or no, because').fill('The others are on leave')
    await second.getByRole('button', { name: 'Say no' }).click()
    await part.getByText(/is told: no, for Guide 2/).waitFor()

    await asking.reload()
    await asks.getByText('yes, somebody is named.').waitFor()
    await asks.getByText('no. The others are on leave').waitFor()
    await asking.getByRole('heading', { level: 1, name: /^One of two posts is not filled/ }).waitFor()
    await asking.context().close()
    await asked.context().close()
  })
})
