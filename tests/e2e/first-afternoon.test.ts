import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SheetDetail } from '../../server/contract/sheets/sheets.ts'
import type { Soldier } from '../../server/contract/soldiers/soldiers.ts'
import type { CertificationStatus } from '../../server/contract/standards/certifications.ts'
import type { Standard } from '../../server/contract/standards/standards.ts'
import { paths } from '../../web/paths.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import type { TestApp } from '../support/build-test-app.ts'
import { atOffice, beginUnit, type Office } from './at-office.ts'
import { atKeyboard, type Hands } from './by-keyboard.ts'
import { atMouse } from './by-mouse.ts'
import { atCall, newPhone, pageOn, seen } from './field-world.ts'
import { expectAsOnPaper, PAPER, writePaperStandard } from './paper-standard.ts'
import { settled } from './world.ts'

let browser: Browser
beforeAll(async () => {
  browser = await openBrowser()
})
afterAll(() => browser?.close())

describe('an empty unit', () => {
  let test: TestApp
  let page: Page
  beforeAll(async () => {
    const begun = await beginUnit(browser)
    test = begun.test
    page = begun.page
  })
  afterAll(() => test?.close())
  const THINGS_NEEDED = /:/
  // Accounts of a test are put into the database as they are; of a real unit the first one is on record.
  const ELSEWHERE: readonly string[] = [
    paths.signIn,
    paths.setUp,
    paths.welcome,
    paths.verify,
    paths.grade,
    paths.record,
  ]
  const addresses = Object.values(paths).filter((path) => !THINGS_NEEDED.test(path) && !ELSEWHERE.includes(path))

  it('has no empty page without a way on', async () => {
    expect(addresses.length).toBeGreaterThan(30)
    const without: string[] = []
    for (const address of addresses) {
      await page.goto(test.app.listeningOrigin + address)
      await settled(page)
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
const GUARD = 'Calloway Point Guard'
/** Two graders, a sponsor who holds it from paper, and whom the sponsor coaches. */
const GRADERS = ['2001', '2016'] as const
const SPONSOR = '2031'
const CANDIDATE = '2004'

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

/** A minute at two seconds a field, and for each click that finds something. */
const SECONDS = 2
const MOST_MINUTES = 60
/** So far away lies nothing that comes next; farthest is somebody in the list of sixty without an account. */
const MOST_TABS = 80
/** Only ends a walk that hangs: writing a standard by hand is thousands of keys. */
const PATIENCE_MS = 3_600_000

// Two ways through the same afternoon. What takes long is walked once: write-standard.test.ts writes the standard by
// keyboard alone, and a phone has no keyboard.
const WAYS = [
  ['with mouse and keys, and a phone', atMouse, 'on a phone'],
  ['by keyboard alone, with a standard from a file and a sheet from paper', atKeyboard, 'on paper'],
] as const

describe.each(WAYS)('a unit’s first afternoon, %s', (how, handsOn, graded) => {
  let test: TestApp
  let page: Page
  let hands: Hands
  let office: Office
  /** To the grader, by the slip. */
  let link = ''
  let taps = 0
  beforeAll(async () => {
    const begun = await beginUnit(browser)
    test = begun.test
    page = begun.page
    hands = handsOn(page)
    office = atOffice(page, hands, async () => expect(await axeViolations(page)).toEqual([]))
  })
  afterAll(() => test?.close())

  it('begins with two companies and four platoons', async () => {
    await office.openPlace('Units', 'There is no unit yet: begin with the one at the top.')
    const add = async (below: string | null, name: string) => {
      await hands.go(below ? `Add below ${below}` : 'Add a unit')
      await page.getByLabel('Name').waitFor()
      await hands.fill('Name', name)
      await hands.go('Add the unit')
      await page.getByRole('button', { name: `Change ${name}` }).waitFor()
    }
    await add(null, GUARD)
    for (const company of COMPANIES) await add(GUARD, company)
    for (const [at, platoon] of PLATOONS.entries()) await add(COMPANIES[Math.floor(at / 2)]!, platoon)
    await office.heading('One unit, two companies and four platoons.')
    expect(await axeViolations(page)).toEqual([])
  })

  it('has its standard of 13 measures and 39 calls as on the paper sheet, and publishes it', {
    timeout: PATIENCE_MS,
  }, async () => {
    if (graded === 'on paper') await test.office.post('/api/standards', PAPER)
    await office.openPlace(
      'Standards and certifications',
      graded === 'on paper' ? /draft/ : 'No standard is defined yet.',
    )
    if (graded === 'on paper') {
      await hands.go('Go on with the draft')
      await office.heading(`Version 1 of ${PAPER.title} is a draft.`)
    } else {
      const before = hands.counts.fields
      await writePaperStandard(page, hands)
      const minutes = ((hands.counts.fields - before) * SECONDS) / 60
      console.info(`The standard ${how}: ${minutes.toFixed(1)} minutes at ${SECONDS} s a field.`)
      expect(minutes).toBeLessThan(15)
    }
    expectAsOnPaper((await test.office.get<{ items: Standard[] }>('/api/standards')).items)
    await hands.part(graded === 'on paper' ? 'What it is' : 'Order of calls', 'Compare and publish')
    await hands.go('Show what it would change')
    await office.goTo(/^Publish version 1/)
    await office.heading(/./)
    await page.waitForURL(/\/standards\/[^/]+/)
    await page.getByText('Publish version 1').waitFor({ state: 'detached' })
  })

  it('says who is certified by it', async () => {
    await office.openPlace('Standards and certifications', 'One standard can be tested.')
    await hands.fill('Certification', 'Sword')
    await hands.fill('Terms hold from', '01012026')
    await hands.choose(PAPER.title, ' ')
    expect(await axeViolations(page)).toEqual([])
    await hands.go('Add the certification')
    await office.heading(/^Sword requires/)
  })

  it('takes sixty people pasted from a spreadsheet, with their grades and arms', async () => {
    await office.openPlace('Import a file', /./)
    await hands.paste('Rows copied from a spreadsheet', sixty())
    expect(await axeViolations(page)).toEqual([])
    await hands.go('Look at the pasted rows')
    await office.heading('60 rows wait to be looked at.')
    await hands.go('Check every row')
    await office.goTo(/right: add them/)
    await hands.go('Check it again with these answers')
    await office.storeRows(60)
    const { items } = await test.office.get<{ items: Soldier[] }>('/api/soldiers?limit=500')
    expect(items).toHaveLength(60)
  })

  it('writes down graders, an award from paper and sponsorships in a table', async () => {
    await office.writeRows(
      'Grader appointments',
      'Roster number',
      GRADERS.map((number, at) => (at === 0 ? [number, PAPER.title, '2026-01-05'] : [number])),
    )
    await office.writeRows('Carried-over awards', 'Roster number', [
      [SPONSOR, 'Sword', '2026-01-10', '2027-01-09', 'Certificate 118'],
    ])
    await office.writeRows('Sponsorships', 'Candidate', [[CANDIDATE, SPONSOR, '2026-02-02'], ['2007']])
  })

  it('gives graders and sponsor their accounts, with a slip for each', async () => {
    await office.openPlace('Accounts for many', /./)
    for (const who of ['2001 Abara, Ada', '2016 Farrow, Ben', '2031 Abara, Dan']) {
      await hands.tick('Soldiers without an account', who)
    }
    await office.heading('Three soldiers chosen.')
    await hands.go('Propose names', 'Shift+Tab')
    await office.heading('Three accounts to make, with these names and roles.')
    expect(await axeViolations(page)).toEqual([])
    await hands.go('Make all accounts')
    await office.heading('Three accounts made; hand out the links now.')
    const slips = page.locator('.several-slips > li')
    expect(await slips.count()).toBe(3)
    link = await office.said(slips.first().locator('.several-address'))
    await hands.go('Done')
    await page.getByRole('dialog').waitFor()
    await hands.go('They are; go on')
    await office.heading(/accounts?/)
  })

  it('plans the first test day with a candidate booked, and the first ceremony', async () => {
    await office.openPlace('Plan a test day', /./)
    await hands.fill('Place', 'Drill field')
    await hands.go('Plan it')
    await page.waitForURL(/\/test-days\/.+/)
    await settled(page)
    await hands.fill('From', '1030AM')
    await hands.fill('To', '1230PM')
    await hands.pick('Add a grader', GRADERS[0])
    await hands.go('Make the slots')
    await page.getByText('free').first().waitFor()
    await hands.pick('Candidate', CANDIDATE, 'Shift+Tab')
    expect(await axeViolations(page)).toEqual([])
    await hands.go('Book the candidate')
    await page.getByRole('table', { name: 'Slots' }).getByRole('link').first().waitFor()

    await office.openPlace('Plan a ceremony', /./)
    await hands.fill('Title', 'Colours at the gate')
    await hands.fill('Day', '07042026')
    await hands.fill('Start', '1000AM')
    await hands.fill('End', '1100AM')
    await hands.fill('Post', 'Guide')
    expect(await axeViolations(page)).toEqual([])
    await hands.go('Plan it')
    await page.waitForURL(/\/ceremonies\/[0-9a-f-]{36}$/)
    await settled(page)
  })

  it.runIf(graded === 'on paper')('enters the test from the paper sheet', async () => {
    await office.openPlace('Enter a sheet', /./)
    await hands.pick('Candidate', CANDIDATE)
    await hands.pick('Grader', GRADERS[0], 'Shift+Tab')
    // The sponsor of the day is filled in for the candidate.
    await expect.poll(() => page.getByRole('combobox', { name: 'Sponsor' }).inputValue()).not.toBe('')
    await hands.fill('Started', '0900')
    await hands.fill('Finished', '0931')
    await hands.press('Enter')
    await hands.type('1'.repeat(PAPER.majors.length + PAPER.calls.length))
    await hands.press('Control+Enter')
    await page.getByText(/^Counted as attempt 1: GO/).waitFor()
    expect(await axeViolations(page)).toEqual([])
  })

  const byTouch = it.runIf(graded === 'on a phone')
  byTouch('has the test graded on a phone, by touch, to the counted sheet', { timeout: PATIENCE_MS }, async () => {
    const phone = await newPhone(browser)
    const grader = await pageOn(phone)
    await grader.goto(link)
    const tap = async (what: Locator) => {
      taps += 1
      await what.tap()
    }
    const tapOn = (name: string | RegExp) => tap(grader.getByRole('button', { name, exact: true }).first())
    await tap(grader.getByLabel('Password', { exact: true }))
    await grader.keyboard.type('walks on the wet drill field')
    await tapOn('Choose it and sign in')
    await tap(grader.getByRole('link', { name: 'Start', exact: true }).first())
    await grader.getByRole('button', { name: /open the day$/ }).waitFor()
    expect(await axeViolations(grader)).toEqual([])
    await tapOn(/open the day$/)
    await tapOn(/start the test/)
    for (let call = 1; call <= 39; call++) {
      await atCall(grader, call)
      await seen(grader)
      if (call === 20) expect(await axeViolations(grader)).toEqual([])
      await tapOn('Correct')
    }
    await tapOn(/close the sheet/)
    await grader.getByText(/^Counted as attempt 1: GO/).waitFor()
    expect(await axeViolations(grader)).toEqual([])
    await phone.close()
  })

  it('shows the soldier certified where a unit looks for it', async () => {
    const { items } = await test.office.get<{ items: Soldier[] }>(`/api/soldiers?q=${CANDIDATE}`)
    const soldierId = items[0]!.id
    const status = await test.office.get<{ items: CertificationStatus[] }>(`/api/soldiers/${soldierId}/status`)
    expect(status.items).toMatchObject([{ certification: 'sword', status: 'certified', validThrough: '2027-06-17' }])
    const sheets = await test.office.get<{ items: { id: string }[] }>(`/api/sheets?soldierId=${soldierId}`)
    const sheet = await test.office.get<SheetDetail>(`/api/sheets/${sheets.items[0]!.id}`)
    expect(sheet).toMatchObject({ state: 'counted', violations: [], result: { outcome: 'GO', go: 13 } })

    await office.openPlace('Who can stand', /in force today/)
    await page.locator('tr', { hasText: 'Dorne, Ada' }).getByText('certified').first().waitFor()
    await hands.goTo('Dorne, Ada')
    await page.getByRole('heading', { level: 1, name: /Dorne/ }).waitFor()
    await page
      .getByText(/certified/i)
      .first()
      .waitFor()
    expect(await axeViolations(page)).toEqual([])
  })

  it('was so many clicks, keys and taps', () => {
    const { clicks, keys, fields, farthest, where } = hands.counts
    const minutes = (fields * SECONDS) / 60
    console.info(
      `First afternoon ${how}: ${fields} fields, rows and buttons, ${clicks} clicks, ${keys} keys, ${taps} taps on the phone: ${minutes.toFixed(1)} minutes at ${SECONDS} s each; "${where}" was ${farthest} tabs away.`,
    )
    expect(farthest).toBeLessThan(MOST_TABS)
    expect(minutes).toBeLessThan(MOST_MINUTES)
  })
})
