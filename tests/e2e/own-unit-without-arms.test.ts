import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { SheetDetail } from '../../server/contract/sheets/sheets.ts'
import type { Soldier } from '../../server/contract/soldiers/soldiers.ts'
import type { CertificationStatus } from '../../server/contract/standards/certifications.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import type { TestApp } from '../support/build-test-app.ts'
import { atOffice, beginUnit, type Office } from './at-office.ts'
import type { Hands } from './by-keyboard.ts'
import { atMouse } from './by-mouse.ts'
import { newPhone, pageOn, seen } from './field-world.ts'
import { settled } from './world.ts'

/** With the words around it, so that a failure says where to look. */
const OF_ARMS = /.{0,40}\b(arms?|armed|swords?|sabers?|sabres?|rifles?|blades?|weapons?|bayonets?|edged)\b.{0,40}/gi

const STANDARD = 'Casket watch and last alarm'
const MEASURES = ['Slow salute', 'Relief of the watch', 'Fold of the flag', 'Last alarm']
const PEOPLE = [
  ['101', 'Amber', 'Jo', 'FF'],
  ['102', 'Birch', 'Jo', 'LT'],
  ['103', 'Cedar', 'Jo', 'ENG'],
] as const
const [CANDIDATE, SPONSOR, GRADER] = ['101', '102', '103'] as const

describe('a fire service’s honor guard without arms, by hand from nothing', () => {
  let browser: Browser
  let test: TestApp
  let page: Page
  let hands: Hands
  let office: Office
  let link = ''
  let pictures = 1
  const looked = new Set<string>()
  const wrong: string[] = []

  beforeAll(async () => {
    browser = await openBrowser()
    const begun = await beginUnit(browser)
    test = begun.test
    page = begun.page
    hands = atMouse(page)
    office = atOffice(page, hands, () => look())
  })
  afterAll(async () => {
    await browser?.close()
    await test?.close()
  })

  /** Notes where a page speaks of arms to whoever looks at it, hears it, or opens one of its lists. */
  async function look(at: Page = page): Promise<void> {
    const said = await at.evaluate(() => {
      const named = ['aria-label', 'placeholder', 'title', 'alt'].flatMap((name) =>
        [...document.querySelectorAll(`[${name}]`)].map((one) => one.getAttribute(name)),
      )
      const values = [...document.querySelectorAll('input, textarea')].map((one) => (one as HTMLInputElement).value)
      return [document.title, document.body.textContent, ...named, ...values].join('\n')
    })
    looked.add(new URL(at.url()).pathname.replace(/[0-9a-f-]{36}/, ':id'))
    for (const [found] of said.matchAll(OF_ARMS)) wrong.push(`${at.url()}: ${found.trim()}`)
    for (const violation of await axeViolations(at)) wrong.push(`${at.url()}: ${violation}`)
    const folder = process.env.PICTURES
    if (folder) await at.screenshot({ path: `${folder}/without-arms-${pictures++}.png`, fullPage: true })
  }

  const openPlace = async (title: string, answer: string | RegExp) => {
    await office.openPlace(title, answer)
    await look()
  }

  it('begins at its desk, and with levels and units in its own words', async () => {
    await look()
    await page.getByText('All pages').first().click()
    await look()
    await page.keyboard.press('Escape')
    await openPlace('First steps', /steps/)
    await openPlace('Units', 'There is no unit yet: begin with the one at the top.')
    await hands.go('What levels are called')
    await page.getByLabel('Level 1, one').waitFor()
    for (const [at, level] of ['department', 'battalion', 'station'].entries())
      await hands.fill(`Level ${at + 1}, one`, level)
    await look()
    await hands.go('Store the words')
    await page.getByRole('button', { name: 'Store the words' }).waitFor({ state: 'detached' })
    const add = async (below: string | null, name: string, level: string) => {
      await hands.go(below ? `Add below ${below}` : 'Add a unit')
      await page.getByLabel('Name').waitFor()
      expect(await page.getByLabel('Level').locator('option:checked').textContent()).toBe(level)
      await hands.fill('Name', name)
      await look()
      await hands.go('Add the unit')
      await page.getByRole('button', { name: `Change ${name}` }).waitFor()
    }
    await add(null, 'Calloway Point Fire Department', 'Department')
    await add('Calloway Point Fire Department', 'East Battalion', 'Battalion')
    await add('East Battalion', 'Station 4', 'Station')
    await office.heading('One department, one battalion and one station.')
    await look()
  })

  it('writes down its grades, and that nothing is carried', async () => {
    await openPlace('Grades and what is carried', 'Nothing is in the lists yet.')
    await hands.go('Fire service honor guard')
    await hands.fill('ENG in full', 'Driver engineer')
    await look()
    await hands.go('Store the lists')
    await office.heading('5 grades, and nothing is carried.')
    await look()
  })

  it('writes its standard by hand, which names none, and publishes it', async () => {
    await openPlace('Standards and certifications', 'No standard is defined yet.')
    await hands.fill('Title', STANDARD)
    await hands.lines('Minor measures, one a line', MEASURES)
    await look()
    await hands.go('Make the draft')
    await office.heading(`Version 1 of ${STANDARD} is a draft.`)
    await settled(page)
    await look()
    await hands.fill('New major measure', 'Uniform')
    await hands.press('Enter')
    await hands.fill('Task', 'Keep the watch at a casket, and sound the last alarm.')
    await hands.lines('Cautions, one a line', ['Standing long makes people faint: do not lock the knees.'])
    await hands.go('Next: Rule')
    await page.getByLabel('Trials of a minor measure').waitFor()
    await hands.fill('Trials of a minor measure', '2')
    await hands.fill('Correct trials needed', '1')
    await look()
    await hands.go('Next: Uniform')
    await hands.lines('Faults, one a line', ['Gloves not white'])
    await look()
    for (const [at, title] of MEASURES.entries()) {
      await hands.go(`Next: ${title}`)
      await hands.fill('Preparatory command', title)
      await hands.fill('Command of execution', at === 3 ? 'Strike' : 'Now')
      await hands.lines('Faults, one a line', ['Not together', 'Too fast'])
      await look()
    }
    await hands.go('Next: Gauges')
    await look()
    await hands.go('Next: Order of calls')
    await look()
    await page.getByText('Saved', { exact: true }).waitFor()
    await page.getByRole('button', { name: 'On paper' }).click()
    await look()
    await hands.go('Compare and publish')
    await hands.go('Show what it would change')
    await page.getByRole('button', { name: /^Publish version 1/ }).waitFor()
    await look()
    await office.goTo(/^Publish version 1/)
    await page.waitForURL(/\/standards\/[^/]+$/)
    await page.getByText('Publish version 1').waitFor({ state: 'detached' })
    await look()
  })

  it('says who is certified by it', async () => {
    await openPlace('Standards and certifications', 'One standard can be tested.')
    await hands.fill('Certification', 'Casket watch')
    await hands.fill('Terms hold from', '01012026')
    await hands.choose(STANDARD, ' ')
    await look()
    await hands.go('Add the certification')
    await office.heading(/^Casket watch requires/)
    await look()
  })

  it('writes its people into a table, with a grader, an award from paper and a sponsor', async () => {
    await office.writeRows(
      'Roster',
      'Roster number',
      PEOPLE.map((person) => [...person, 'Station 4', '2026-01-05']),
    )
    await office.writeRows('Grader appointments', 'Roster number', [[GRADER, STANDARD, '2026-01-05']])
    await office.writeRows('Carried-over awards', 'Roster number', [
      [SPONSOR, 'Casket watch', '2026-01-10', '2027-01-09', 'Certificate 7'],
    ])
    await office.writeRows('Sponsorships', 'Candidate', [[CANDIDATE, SPONSOR, '2026-02-02']])
    await openPlace('People', /./)
    const { items } = await test.office.get<{ items: Soldier[] }>('/api/soldiers')
    expect(items.map(({ rosterNumber, grade, arms }) => [rosterNumber, grade, arms])).toEqual(
      PEOPLE.map(([number, , , grade]) => [number, grade, []]),
    )
  })

  it('gives the grader an account', async () => {
    await openPlace('Accounts for many', /./)
    await hands.fill('Number, name or grade', 'cedar')
    await page.getByRole('row', { name: /Amber/ }).waitFor({ state: 'detached' })
    await hands.tick('Soldiers without an account', 'Cedar')
    await office.heading('One soldier chosen.')
    await look()
    await hands.go('Propose names', 'Shift+Tab')
    await office.heading('One account to make, with these names and roles.')
    await look()
    await hands.go('Make all accounts')
    await office.heading('One account made; hand out the links now.')
    link = await office.said(page.locator('.several-slips .several-address'))
    await look()
    await hands.go('Done')
    await page.getByRole('dialog').waitFor()
    await hands.go('They are; go on')
    await office.heading(/accounts?/)
    await look()
  })

  it('plans a test day and a ceremony', async () => {
    await openPlace('Plan a test day', /./)
    await hands.fill('Place', 'Apparatus floor')
    await hands.go('Plan it')
    await page.waitForURL(/\/test-days\/.+/)
    await settled(page)
    await hands.fill('From', '1030AM')
    await hands.fill('To', '1230PM')
    await hands.pick('Add a grader', GRADER)
    await hands.go('Make the slots')
    await page.getByText('free').first().waitFor()
    await look()
    await hands.pick('Candidate', CANDIDATE, 'Shift+Tab')
    await hands.go('Book the candidate')
    await page.getByRole('table', { name: 'Slots' }).getByRole('link').first().waitFor()
    await look()

    await openPlace('Plan a ceremony', /./)
    await hands.fill('Title', 'Memorial Sunday')
    await hands.fill('Day', '07042026')
    await hands.fill('Start', '1000AM')
    await hands.fill('End', '1100AM')
    await hands.fill('Post', 'Head of the casket')
    await look()
    await hands.go('Plan it')
    await page.waitForURL(/\/ceremonies\/[0-9a-f-]{36}$/)
    await settled(page)
    await look()
  })

  it('has the test graded on a phone, to the counted sheet', async () => {
    const phone = await newPhone(browser)
    const grader = await pageOn(phone)
    const tap = async (what: Locator) => {
      await what.waitFor()
      await look(grader)
      await what.tap()
    }
    const tapOn = (name: string | RegExp) => tap(grader.getByRole('button', { name, exact: true }).first())
    await grader.goto(link)
    await tap(grader.getByLabel('Password', { exact: true }))
    await grader.keyboard.type('keeps the watch at night')
    await tapOn('Choose it and sign in')
    await tap(grader.getByRole('link', { name: 'Start', exact: true }).first())
    await tapOn(/open the day$/)
    await tapOn(/start the test/)
    for (let call = 1; call <= 8; call++) {
      await grader.locator('.call-where', { hasText: new RegExp(`^Call ${call} of 8`) }).waitFor()
      await seen(grader)
      await tapOn(call % 2 === 0 ? 'Correct' : 'Incorrect')
    }
    await tapOn(/close the sheet/)
    await grader.getByText(/^Counted as attempt 1: GO/).waitFor()
    await look(grader)
    await phone.close()
  })

  it('shows the candidate certified, on screen and on paper', async () => {
    const { items } = await test.office.get<{ items: Soldier[] }>(`/api/soldiers?q=${CANDIDATE}`)
    const soldierId = items[0]!.id
    const status = await test.office.get<{ items: CertificationStatus[] }>(`/api/soldiers/${soldierId}/status`)
    expect(status.items).toMatchObject([{ certification: 'casket-watch', status: 'certified' }])
    const sheets = await test.office.get<{ items: { id: string }[] }>(`/api/sheets?soldierId=${soldierId}`)
    expect(await test.office.get<SheetDetail>(`/api/sheets/${sheets.items[0]!.id}`)).toMatchObject({
      arm: null,
      state: 'counted',
      violations: [],
      result: { outcome: 'GO', go: 4 },
    })
    await openPlace('Who can stand', /in force today/)
    await page.locator('tr', { hasText: 'Amber, Jo' }).getByText('certified').first().waitFor()
    await look()
    await hands.goTo('Amber, Jo')
    await page.getByRole('heading', { level: 1, name: /Amber/ }).waitFor()
    await settled(page)
    await look()
    for (const address of [
      `/sheets/${sheets.items[0]!.id}`,
      `/people/${soldierId}`,
      '/enter',
      '/retests',
      '/ceremonies',
      '/findings/measures',
      '/certificates',
      '/first-steps',
      '/',
    ]) {
      await page.goto(test.app.listeningOrigin + address)
      await settled(page)
      await look()
    }
    expect(looked.size).toBeGreaterThan(20)
    expect([...new Set(wrong)]).toEqual([])
  })
})
