import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { axeViolations, openBrowser, openPage, type screens } from '../support/browser.ts'
import { carryOver, makeSoldier, makeUnit } from '../support/factories.ts'
import { signIn } from '../support/sign-in.ts'
import { buildWorld, NOW, settled, type World } from './world.ts'

let world: World
let browser: Browser
let strangerId: string
beforeAll(async () => {
  world = await buildWorld()
  browser = await openBrowser()
  const { office, signedIn } = world.app
  const ceremony = await office.get<{ unitId: string; version: number; formation: { id: string }[] }>(
    `/api/ceremonies/${world.ceremonyId}`,
  )
  const otherUnit = await makeUnit(office, { name: '9th Platoon', kind: 'platoon', parentId: ceremony.unitId })
  strangerId = await makeSoldier(office, otherUnit, { familyName: 'Strangeways', givenName: 'Odo', grade: 'SGT' })
  await carryOver(office, strangerId, 'sword')
  const names = [{ postId: ceremony.formation[0]!.id, soldierId: strangerId }]
  await office.post(`/api/ceremonies/${world.ceremonyId}/name`, { version: ceremony.version, names }, 200)
  await office.post('/api/ceremonies', {
    title: 'Evening Retreat',
    unitId: world.platoonId,
    reportsAt: '2026-07-01T16:00:00-04:00',
    startsAt: '2026-07-01T17:00:00-04:00',
    endsAt: '2026-07-01T17:30:00-04:00',
    rehearsals: [{ startsAt: '2026-06-30T17:00:00-04:00', endsAt: '2026-06-30T18:00:00-04:00', place: 'Lawn' }],
    posts: [
      { title: 'Sergeant of the detail', row: 1, place: 1, certification: 'sword', soldierId: world.candidateId },
      { title: 'Honor guard', row: 2, place: 1, certification: 'sword' },
    ],
  })
  await signedIn({ name: 'leader', roles: ['leader'], unitId: world.platoonId })
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

/** Opens a page as the platoon's leader; everything the server answers is kept in `wire`. */
async function openAsLeader(address: string, screen: keyof typeof screens = 'desktop'): Promise<[Page, string[]]> {
  const page = await openPage(browser, `${world.url}/sign-in`, screen)
  await page.clock.setFixedTime(new Date(NOW))
  const wire: string[] = []
  page.on('response', async (response) => {
    if (response.url().includes('/api/')) wire.push(await response.text().catch(() => ''))
  })
  await signIn(page, world.url, 'leader')
  await page.goto(world.url + address)
  await settled(page)
  return [page, wire]
}

describe('the platoon leader’s day', () => {
  it('from the desk to a short post in three clicks at most, names somebody, takes it back, and prints the roster', async () => {
    const [page, wire] = await openAsLeader('/')
    expect(
      await page.getByRole('region', { name: 'Founders’ Parade' }).getByText('Short', { exact: true }).isVisible(),
    ).toBe(true)
    const part = page.getByRole('region', { name: 'After that' })
    expect(await part.getByRole('link').first().isVisible()).toBe(false)
    await part.getByText('Evening Retreat', { exact: true }).click()
    expect(await part.textContent()).toContain('0 of 2 filled')
    await part.getByText('Short', { exact: true }).click()
    await part.getByRole('link', { name: 'Sergeant of the detail' }).waitFor()
    expect(await part.textContent()).toMatch(/CPL Amadi, Rafe: not certified/)
    await part.getByRole('link', { name: 'Honor guard' }).click()

    const dialog = page.getByRole('dialog', { name: 'Honor guard' })
    await dialog.getByRole('button', { name: 'Name SGT Ashdown, Mirela' }).click()
    await page.getByText('SGT Ashdown, Mirela is named to Honor guard.').waitFor()
    await page.getByRole('heading', { level: 1, name: /^One of two posts is not filled for Evening Retreat/ }).waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('heading', { level: 1, name: /^None of the two posts is filled/ }).waitFor()

    await page.getByRole('link', { name: 'Roster to print' }).click()
    await page.waitForURL('**/roster')
    await settled(page)
    await page.emulateMedia({ media: 'print' })
    const roster = await page.locator('.wall').textContent()
    for (const said of ['16:00', '17:00', 'Rehearsal', 'CPL Amadi, Rafe', 'As of Wednesday 17 June 2026', 'cease']) {
      expect(roster).toContain(said)
    }
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false)
    for (const format of ['Letter', 'A4']) {
      const pdf = (await page.pdf({ format })).toString('latin1')
      expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1)
    }
    expect(wire.length).toBeGreaterThan(3)
    expect(wire.join()).toContain('Ashdown')
    expect(wire.join()).not.toContain('Strangeways')
    expect(wire.join()).not.toContain(strangerId)
    await page.context().close()
  })

  it('sees a post of another unit filled without the name, and changes only what is open', async () => {
    const [page, wire] = await openAsLeader(`/ceremonies/${world.ceremonyId}`)
    const posts = page.getByRole('list', { name: 'Ranks, front rank first' })
    expect(await posts.textContent()).toMatch(/Commander of troopsof another unit/)
    expect(await page.getByRole('button', { name: 'Change: Commander of troops' }).count()).toBe(0)
    expect(await page.getByRole('link', { name: 'Change the plan' }).count()).toBe(0)
    expect(wire.join()).not.toContain('Strangeways')
    await page.context().close()
  })

  it('plans a ceremony from an earlier one, and is told when somebody else has changed it meanwhile', async () => {
    const [page] = await openAsLeader('/ceremonies')
    await page.getByRole('link', { name: 'Evening Retreat' }).click()
    await page.getByRole('link', { name: 'Copy as a new one' }).click()
    await page.getByLabel('Day').first().fill('2026-07-08')
    await page.getByLabel('Title').fill('Evening Retreat, again')
    await page.getByRole('button', { name: 'Another like post 2' }).click()
    await page.getByRole('button', { name: 'Plan it' }).click()
    await page
      .getByRole('heading', { level: 1, name: /^None of the three posts is filled for Evening Retreat, again/ })
      .waitFor()
    const id = new URL(page.url()).pathname.split('/').at(-1)!
    await page.getByRole('link', { name: 'Change the plan' }).click()
    await page.getByRole('textbox', { name: 'Where' }).first().fill('Lawn')
    const { formation, version } = await world.app.office.get<{ version: number; formation: { id: string }[] }>(
      `/api/ceremonies/${id}`,
    )
    const names = [{ postId: formation[0]!.id, soldierId: null }]
    await world.app.office.post(`/api/ceremonies/${id}/name`, { version, names }, 200)
    await page.getByRole('button', { name: 'Save the change' }).click()
    await page.getByText('Somebody has changed this ceremony since you opened it').waitFor()
    expect(await page.getByRole('textbox', { name: 'Where' }).first().inputValue()).toBe('Lawn')
    await page.context().close()
  })

  it('copies a ceremony of the company to one manned by the own platoon', async () => {
    const [page] = await openAsLeader(`/ceremonies/${world.ceremonyId}`)
    await page.getByRole('link', { name: 'Copy as a new one' }).click()
    const mannedBy = page.getByLabel('Manned by')
    await mannedBy.waitFor()
    expect(await mannedBy.inputValue()).toBe(world.platoonId)
    expect(await mannedBy.locator('option').count()).toBe(1)
    await page.getByLabel('Title').fill('A parade of our own')
    await page.getByLabel('Day').first().fill('2026-07-09')
    await page.getByRole('button', { name: 'Plan it' }).click()
    await page.getByRole('heading', { level: 1, name: /^None of the .* for A parade of our own/ }).waitFor()
    await page.context().close()
  })

  it.each(['phone', 'desktop'] as const)('is clean by axe on the %s in every theme', async (screen) => {
    const [page] = await openAsLeader('/desk/leader', screen)
    const broken: string[] = []
    for (const address of ['/desk/leader', `/ceremonies/${world.ceremonyId}`, '/ceremonies/new']) {
      await page.goto(world.url + address)
      await settled(page)
      for (const summary of await page.locator('summary').all()) await summary.click()
      for (const theme of ['light', 'dark', 'sun']) {
        await page.evaluate((chosen) => (document.documentElement.dataset.theme = chosen), theme)
        for (const violation of await axeViolations(page)) broken.push(`${address}, ${theme}: ${violation}`)
      }
    }
    await page.context().close()
    expect(broken).toEqual([])
  })
})
