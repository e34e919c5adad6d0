import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Soldier } from '../../server/contract/soldiers/soldiers.ts'
import { paths } from '../../web/paths.ts'
import { axeViolations, openBrowser, openPage } from '../support/browser.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../support/build-test-app.ts'
import { settled } from './world.ts'

const NOW = '2026-06-17T14:00:00Z'
let test: TestApp
let browser: Browser
let page: Page
/** What the hands did so far. */
const hands = { clicks: 0, keys: 0 }

beforeAll(async () => {
  test = await buildTestApp({ now: NOW, timeZone: 'America/New_York' })
  await test.signedIn({ name: 'first', roles: ['office', 'administrator'] })
  browser = await openBrowser()
  const url = test.app.listeningOrigin
  page = await openPage(browser, `${url}/sign-in`, 'desktop')
  await page.clock.setFixedTime(new Date(NOW))
  const answer = await page.request.post(`${url}/api/session`, {
    data: { name: 'first', password: PASSWORD },
    headers: { origin: url },
  })
  expect(answer.ok()).toBe(true)
})
afterAll(async () => {
  await browser?.close()
  await test?.close()
})

async function open(address: string): Promise<void> {
  await page.goto(test.app.listeningOrigin + address)
  await settled(page)
}

async function click(what: Locator): Promise<void> {
  hands.clicks += 1
  await what.click()
}

/** One click into the field, and a key for each character. */
async function type(into: Locator, text: string): Promise<void> {
  hands.clicks += 1
  hands.keys += text.length
  await into.fill(text)
}

/** A choice from a list: one click to open it, one to choose. */
async function choose(from: Locator, label: string): Promise<void> {
  hands.clicks += 2
  await from.selectOption({ label })
}

/** Pasted: a click and two keys, however much it is. */
async function paste(into: Locator, text: string): Promise<void> {
  hands.clicks += 1
  hands.keys += 2
  await into.fill(text)
}

const button = (name: string | RegExp) => page.getByRole('button', { name })
const heading = (name: string | RegExp) => page.getByRole('heading', { level: 1, name }).waitFor()

async function checkAndStore(rows: number): Promise<void> {
  await click(button('Check every row'))
  await heading(`${rows} rows can be stored.`)
  expect(await axeViolations(page)).toEqual([])
  await click(button(/^Store /))
  await click(page.getByRole('dialog').getByRole('button', { name: 'Store it' }))
  await heading(`${rows} rows of the file are in the record.`)
}

describe('an empty unit', () => {
  const THINGS_NEEDED = /:/
  // Accounts of a test are put into the database as they are; of a real unit the first one is on record.
  const ELSEWHERE: readonly string[] = [paths.signIn, paths.setUp, paths.welcome, paths.grade, paths.record]
  const addresses = Object.values(paths).filter((path) => !THINGS_NEEDED.test(path) && !ELSEWHERE.includes(path))

  it('has no empty page without a way on', async () => {
    expect(addresses.length).toBeGreaterThan(30)
    const without: string[] = []
    for (const address of addresses) {
      await open(address)
      const empties = await page.locator('main .empty').all()
      for (const empty of empties) {
        // Where the step itself is taken on the page, its form or button is the way.
        if ((await page.locator('main :is(.button-main, form button[type=submit])').count()) > 0) continue
        const way = empty.locator('a[href]').first()
        const isThere = await way.waitFor().then(
          () => true,
          () => false,
        )
        if (!isThere) without.push(`${address}: ${await empty.textContent()}`)
      }
    }
    expect(without).toEqual([])
  })
})

const COMPANIES = ['A Company', 'B Company']
const PLATOONS = ['1st Platoon', '2nd Platoon', '3rd Platoon', '4th Platoon']
const FAMILY = ['Abara', 'Brock', 'Castell', 'Dorne', 'Eklund', 'Farrow', 'Galt', 'Hyde', 'Ibsen', 'Jarrow']
const GIVEN = ['Ada', 'Ben', 'Cleo', 'Dan', 'Eve', 'Finn']

/** Sixty people of four platoons, as a spreadsheet puts them on the clipboard. */
const sixty = (): string => {
  const rows = Array.from({ length: 60 }, (_, at) => [
    String(2001 + at),
    FAMILY[at % 10]!,
    GIVEN[Math.floor(at / 10)]!,
    at % 15 === 0 ? 'SGT' : 'CPL',
    at % 3 === 0 ? 'rifle;sword' : 'rifle',
    PLATOONS[at % 4]!,
    '2026-01-05',
  ])
  const labels = ['Roster number', 'Family name', 'Given name', 'Grade', 'Arms', 'Unit', 'From']
  return [labels, ...rows].map((row) => row.join('\t')).join('\r\n')
}

describe('a unit’s first afternoon, by hand', () => {
  async function addUnit(below: string | null, name: string, level: string | null) {
    await click(below ? button(`Add below ${below}`) : button('Add a unit').first())
    await type(page.getByLabel('Name'), name)
    if (level) await choose(page.getByLabel('Level'), level)
    await click(button('Add the unit'))
    await button(`Change ${name}`).waitFor()
  }

  it('begins with two companies and four platoons', async () => {
    await open('/units')
    await addUnit(null, 'Calloway Point Guard', null)
    for (const company of COMPANIES) await addUnit('Calloway Point Guard', company, null)
    for (const [at, platoon] of PLATOONS.entries()) await addUnit(COMPANIES[Math.floor(at / 2)]!, platoon, null)
    await heading('Seven units, one of them at the top.')
  })

  it('takes a standard and a certification from a beginning', async () => {
    await open('/standards')
    await choose(page.getByLabel('Begin from'), 'Rifle, standing manual')
    await type(page.getByLabel('Title'), 'Our rifle manual')
    await click(button('Make the draft'))
    await heading(/is a draft\.$/)
    const { items } = await test.office.get<{ items: { id: string; title: string }[] }>('/api/standards')
    await test.office.post(`/api/standards/${items[0]!.id}/publish`, undefined, 200)
    await open('/standards')
    await type(page.getByRole('textbox', { name: 'Certification' }), 'Rifle')
    await click(page.getByLabel(items[0]!.title))
    await click(button('Add the certification'))
    await heading(/^Rifle requires/)
  })

  it('takes sixty people pasted from a spreadsheet, with their grades and arms', async () => {
    await open('/import')
    await paste(page.getByLabel('Rows copied from a spreadsheet'), sixty())
    expect(await axeViolations(page)).toEqual([])
    await click(button('Look at the pasted rows'))
    await heading('60 rows wait to be looked at.')
    await click(button('Check every row'))
    await click(button(/grades and arms are right: add them/))
    await click(button('Check it again with these answers'))
    await heading('60 rows can be stored.')
    await click(button(/^Store /))
    await click(page.getByRole('dialog').getByRole('button', { name: 'Store it' }))
    await heading('60 rows of the file are in the record.')
    const { items } = await test.office.get<{ items: Soldier[] }>('/api/soldiers?limit=500')
    expect(items).toHaveLength(60)
    expect(items[0]).toMatchObject({ rosterNumber: '2001', arms: ['rifle', 'sword'], joined: '2026-01-05' })
  })

  it('appoints two graders and names a sponsor in a table, by keyboard', async () => {
    const standard = (await test.office.get<{ items: { code: string }[] }>('/api/standards')).items[0]!.code
    await open('/import')
    await click(page.getByText('Write the rows by hand'))
    await choose(page.getByLabel('What the rows are'), 'Grader appointments')
    await page.getByLabel('Roster number, row 1').focus()
    const keys = async (...pressed: string[]) => {
      for (const each of pressed) {
        const isKey = ['Tab', 'Enter'].includes(each)
        hands.keys += isKey ? 1 : each.length
        await (isKey ? page.keyboard.press(each) : page.keyboard.type(each))
      }
    }
    await keys('2001', 'Tab', standard, 'Tab', '2026-01-05', 'Enter', '2016')
    expect(await page.getByLabel('Standard, row 2').inputValue()).toBe(standard)
    expect(await axeViolations(page)).toEqual([])
    await click(button('Look at these rows'))
    await heading('2 rows wait to be looked at.')
    await checkAndStore(2)

    await open('/import')
    await click(page.getByText('Write the rows by hand'))
    await choose(page.getByLabel('What the rows are'), 'Sponsorships')
    await page.getByLabel('Candidate, row 1').focus()
    await keys('2002', 'Tab', '2031', 'Tab', '2026-02-02', 'Enter', '2003', 'Enter')
    await click(button('Look at these rows'))
    await heading('2 rows wait to be looked at.')
    await checkAndStore(2)
  })

  it('gives graders and sponsor their accounts, with a slip for each', async () => {
    await open('/accounts')
    await click(page.getByRole('link', { name: 'Accounts for many' }))
    for (const who of ['2001 Abara, Ada', '2016 Farrow, Ben', '2031 Abara, Dan']) await click(page.getByLabel(who))
    await heading('Three soldiers chosen.')
    expect(await axeViolations(page)).toEqual([])
    await click(button('Propose names'))
    await heading('Three accounts to make, with these names and roles.')
    const grades = page.getByRole('group', { name: 'Roles of 2001 Abara, Ada' }).getByLabel('Grader')
    expect(await grades.isChecked()).toBe(true)
    await type(page.getByLabel('Name to sign in with, 2001 Abara, Ada'), 'first')
    await click(button('Make all accounts'))
    await page.getByText('There is an account of this name already.').waitFor()
    expect(await axeViolations(page)).toEqual([])
    await type(page.getByLabel('Name to sign in with, 2001 Abara, Ada'), 'abara.ada')
    await click(button('Make all accounts'))
    await heading('Three accounts made; hand out the links now.')
    expect(await axeViolations(page)).toEqual([])
    const slips = page.locator('.several-slips > li')
    expect(await slips.count()).toBe(3)
    const link = ((await slips.first().locator('.several-address').textContent()) ?? '').trim()
    expect(link).toContain('/welcome#')

    const grader = await openPage(browser, link, 'phone')
    expect(await grader.getByLabel('Name to sign in with').inputValue()).toBe('abara.ada')
    await grader.context().close()
    await click(button('Done'))
    await click(page.getByRole('dialog').getByRole('button', { name: 'They are; go on' }))
    await heading(/accounts?/)
  })

  it('plans the first test day and the first ceremony', async () => {
    await open('/test-days')
    await type(page.getByLabel('Place'), 'Drill field')
    await click(button('Plan it'))
    await page.waitForURL(/\/test-days\/.+/)
    await open('/ceremonies/new')
    await type(page.getByLabel('Title').first(), 'Colours at the gate')
    await type(page.getByLabel('Day', { exact: true }), '2026-07-04')
    await type(page.getByLabel('Start', { exact: true }), '10:00')
    await type(page.getByLabel('End', { exact: true }), '11:00')
    await type(page.getByRole('textbox', { name: 'Post', exact: true }), 'Guide')
    expect(await axeViolations(page)).toEqual([])
    await click(button('Plan it'))
    await page.waitForURL(/\/ceremonies\/[0-9a-f-]{36}$/)
    await settled(page)
  })

  it('was so many clicks and keys', () => {
    const minutes = ((hands.clicks + hands.keys) * 0.5) / 60
    console.log(`First afternoon, without the standard: ${hands.clicks} clicks, ${hands.keys} keys.`)
    expect(minutes).toBeLessThan(20)
  })
})
