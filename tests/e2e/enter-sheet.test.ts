import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { z } from 'zod'
import type { SheetDetail } from '../../server/contract/sheets/sheets.ts'
import type { SoldierPage } from '../../server/contract/soldiers/soldiers.ts'
import { openBrowser } from '../support/browser.ts'
import { secondPerson } from '../support/second-person.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

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

const TRIALS = 39

/** Fills the head of the sheet by keys alone, beginning in the candidate's field, where the page puts the focus. */
async function typeHead(page: Page, candidate: string, grader: string) {
  const keys = page.keyboard
  await keys.type(candidate)
  await page.getByRole('listbox').getByRole('option').first().waitFor()
  await keys.press('Enter')
  await keys.press('Shift+Tab')
  await keys.type(grader)
  await page.getByRole('listbox').getByRole('option').first().waitFor()
  await keys.press('Enter')
  for (let field = 0; field < 4; field++) await keys.press('Tab')
  await keys.type('0900')
  await keys.press('Tab')
  await keys.type('0931')
  await keys.press('Enter')
}

const answerOf = (page: Page) => page.getByRole('status').first().textContent()

describe('a paper sheet', () => {
  it('is entered by keyboard alone and counted, and the next one keeps what the pile shares', async () => {
    const page = await openAsOffice(world, browser, '/enter')
    await typeHead(page, '1007', 'quint')
    // Two majors, then 39 trials: the third trial of draw is incorrect with a fault and a reading.
    await page.keyboard.type('11110f')
    await page.keyboard.press('=')
    await page.keyboard.type('52')
    await page.keyboard.press('Enter')
    await page.keyboard.press('Enter')
    await page.keyboard.type('1'.repeat(TRIALS - 3))
    expect(await page.locator('.enter-side .score-says').textContent()).toBe('GO: 13 of 13, 11 needed.')
    await page.keyboard.press('Control+Enter')
    await page.getByRole('button', { name: 'Next sheet' }).waitFor()
    expect(await answerOf(page)).toBe('Counted as attempt 3: GO, 13 of 13.')

    const stored = await page.getByRole('link', { name: 'The sheet as it is stored' }).getAttribute('href')
    const sheet = await world.app.office.get<SheetDetail>(`/api${stored}`)
    expect(sheet).toMatchObject({
      state: 'counted',
      candidateId: world.candidateId,
      startedAt: '2026-06-17T09:00:00-04:00',
      finishedAt: '2026-06-17T09:31:00-04:00',
    })
    expect(sheet.minors[0]).toEqual({
      code: 'draw',
      trials: ['correct', 'correct', 'incorrect'],
      faults: [{ trial: 3, code: 'elbow-bent' }],
      readings: [{ trial: 3, gauge: 'draw-out', value: '52', override: null }],
    })
    expect(sheet.result.minors[0]?.faults).toEqual([
      { trial: 3, code: 'draw-line-off' },
      { trial: 3, code: 'elbow-bent' },
    ])

    await page.keyboard.press('Enter')
    await page.getByRole('grid').waitFor()
    expect(await page.getByLabel('Grader').inputValue()).toBe('SFC Quintrell, Bram')
    expect(await page.getByLabel('Candidate').inputValue()).toBe('')
    expect(await page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('combobox')
    await page.context().close()
  })

  it('that breaks a condition is stored and held, and says why', async () => {
    const page = await openAsOffice(world, browser, '/enter')
    // The grader of this paper coaches the candidate.
    await typeHead(page, '1009', 'ashdown')
    await page.keyboard.type('1'.repeat(2 + TRIALS))
    await page.keyboard.press('Control+Enter')
    await page.getByRole('button', { name: 'Next sheet' }).waitFor()
    expect(await answerOf(page)).toMatch(/^Stored and held for the training office: \w+ conditions? not met\.$/)
    expect(await page.locator('.enter-why').textContent()).toMatch(
      /The grader (is the sponsor on the sheet|has sponsored the candidate)\b.*This is never waived\./,
    )
    await page.context().close()
  })

  it('with what is malformed or missing marks it where it is and sends nothing', async () => {
    const page = await openAsOffice(world, browser, '/enter')
    const sent: string[] = []
    page.on('request', (request) => request.method() === 'PUT' && sent.push(request.url()))
    await page.keyboard.press('Control+Enter')
    expect(await page.getByText('Choose the candidate from the list.').isVisible()).toBe(true)
    expect(await page.getByText('Give the time it started, such as 0900.').isVisible()).toBe(true)
    // The first field to fill in has the focus.
    await page.waitForFunction(() => document.activeElement?.getAttribute('aria-invalid') === 'true')
    await page.getByLabel('Candidate').focus()
    await typeHead(page, '1007', 'quint')
    await page.keyboard.type('111.1')
    expect(await page.locator('.mark-problem').textContent()).toMatch(/^Trial 2 of Draw is blank/)
    await page.keyboard.press('Control+Enter')
    // The place to mend has the focus.
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(
      /^Draw, trial 2: blank/,
    )
    await page.keyboard.press('1')
    await page.keyboard.press('Control+Enter')
    expect(await page.getByText(/The sheet is not finished\. Still open: Return, trial 1/).isVisible()).toBe(true)
    expect(sent).toEqual([])
    await page.context().close()
  })

  it('survives a lost connection and a closed page, and arrives once', async () => {
    const page = await openAsOffice(world, browser, '/enter')
    await typeHead(page, '1009', 'quint')
    await page.keyboard.type('1'.repeat(2 + TRIALS))
    await page.context().route('**/api/sheets/*', (route) => route.abort())
    await page.keyboard.press('Control+Enter')
    await page.getByRole('button', { name: 'Try now' }).waitFor()
    expect(await answerOf(page)).toBe('Not sent yet. It waits on this device and is tried again by itself.')
    await page.reload()
    await settled(page)
    expect(await page.getByText('waits to be sent').isVisible()).toBe(true)
    const ids = new Set<string>()
    await page.context().unroute('**/api/sheets/*')
    page.on('request', (request) => request.method() === 'PUT' && ids.add(request.url()))
    await page.getByRole('button', { name: 'Try now' }).click()
    await page.getByText(/^Counted as attempt 1: GO|^Stored and held/).waitFor()
    expect(ids.size).toBe(1)
    expect(await page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('.sheet.')))).toEqual([])
    await page.context().close()
  })

  it('stopped by a major measure is entered with its call', async () => {
    const page = await openAsOffice(world, browser, '/enter')
    await typeHead(page, '1007', 'quint')
    // Uniform GO, composure NO-GO with its first fault, after two calls: draw and return were called once each.
    await page.keyboard.type('10')
    await page.locator('#call-composure').waitFor()
    await page.keyboard.type('2')
    await page.keyboard.press('Enter')
    await page.keyboard.type('11')
    expect(await page.locator('.enter-side .score-says').textContent()).toBe(
      'NO-GO, stopped by a major measure; 13 not tested.',
    )
    await page.keyboard.press('Control+Enter')
    await page.getByRole('button', { name: 'Next sheet' }).waitFor()
    const stored = await page.getByRole('link', { name: 'The sheet as it is stored' }).getAttribute('href')
    const sheet = await world.app.office.get<SheetDetail>(`/api${stored}`)
    expect(sheet.majors).toMatchObject([{ mark: 'GO' }, { code: 'composure', mark: 'NO-GO', atCall: 2 }])
    expect(sheet.result).toMatchObject({ ending: 'stopped', outcome: 'NO-GO', notTested: 13 })
    await page.context().close()
  })

  it('stored already is amended, and keeps its revisions', async () => {
    const page = await openAsOffice(world, browser, `/enter?amend=${world.heldId}`)
    expect(await page.getByLabel('Candidate').inputValue()).toBe('CPL Brandt, Louisa')
    await page.getByLabel('Sponsor', { exact: true }).fill('1003')
    await page.getByRole('listbox').getByRole('option').first().waitFor()
    await page.keyboard.press('Enter')
    await page.keyboard.press('Control+Enter')
    expect(await page.getByText('Say why the sheet is amended.').isVisible()).toBe(true)
    await page.getByLabel('Why it is amended').fill('The sponsor stands on the back of the paper.')
    await page.keyboard.press('Control+Enter')
    await page.getByRole('button', { name: 'Next sheet' }).waitFor()
    // A sheet that nothing holds any more counts: that is for a second person to confirm.
    expect(await answerOf(page)).toMatch(/^Proposed: the sheet, as GO, takes effect once a second person confirms it/)
    const { office } = world.app
    expect((await office.get<SheetDetail>(`/api/sheets/${world.heldId}`)).revisions).toHaveLength(1)
    const waiting = await office.get<{ items: { id: string; sheetId: string }[] }>('/api/amendments')
    const proposal = waiting.items.find(({ sheetId }) => sheetId === world.heldId)!
    const second = await secondPerson(world.app)
    await second.post(`/api/amendments/${proposal.id}/decision`, { decision: 'confirm', reason: 'Compared' }, 200)
    const sheet = await office.get<SheetDetail>(`/api/sheets/${world.heldId}`)
    expect(sheet.revisions.map(({ reason }) => reason)).toEqual([null, 'The sponsor stands on the back of the paper.'])
    expect(sheet.sponsorId).not.toBeNull()
    await page.goto(`${world.url}/sheets/${world.heldId}?revision=1`)
    await settled(page)
    expect(await page.getByText('This is revision 1; revision 2 is in force.').isVisible()).toBe(true)
    await page.context().close()
  })
})

describe('at the desk', () => {
  it('another candidate brings their own sponsor, and one typed by hand stays', async () => {
    const { office } = world.app
    const [lapsed] = (await office.get<z.infer<typeof SoldierPage>>('/api/soldiers?q=1008')).items
    const { grader } = world.soldierOf
    await office.post(`/api/soldiers/${lapsed!.id}/sponsorships`, { sponsorId: grader, from: '2026-01-01' })
    const page = await openAsOffice(world, browser, '/enter')
    const choose = async (label: string, typed: string) => {
      await page.getByLabel(label, { exact: true }).fill(typed)
      await page.getByRole('listbox').getByRole('option').first().waitFor()
      await page.keyboard.press('Enter')
    }
    const sponsorIs = (name: string) =>
      page.waitForFunction(
        (wanted) => document.querySelector<HTMLInputElement>('.enter-sponsor input')?.value === wanted,
        name,
      )
    await choose('Candidate', '1007')
    await sponsorIs('SGT Ashdown, Mirela')
    await choose('Candidate', '1008')
    await sponsorIs('SFC Quintrell, Bram')
    await choose('Sponsor', '1003')
    await choose('Candidate', '1007')
    await sponsorIs('SGT Ashdown, Mirela')
    await choose('Sponsor', '1002')
    await choose('Candidate', '1009')
    await page.getByText(/Of record that day: .*Ashdown, Mirela/).waitFor()
    await sponsorIs('SFC Quintrell, Bram')
    await page.context().close()
  })

  it('takes faults by the numbers that the paper sheet prints', async () => {
    const page = await openAsOffice(world, browser, `/standards/${world.standard}/paper`)
    const printed = page.locator('[aria-label="Blank grade sheet"] .paper-sheet').nth(1).locator('tbody').first()
    const number = (await printed
      .locator('.paper-faults > span', { hasText: 'Elbow bent' })
      .locator('b')
      .textContent())!
    await page.goto(`${world.url}/enter`)
    await settled(page)
    await typeHead(page, '1009', 'quint')
    await page.keyboard.type('110/')
    await page.keyboard.type(`${number} 99`)
    await page.getByText('No fault has the number 99').waitFor()
    await page.keyboard.press('Backspace')
    await page.keyboard.press('Backspace')
    await page.keyboard.press('Enter')
    await page.keyboard.type('11')
    expect(await page.locator('.mark-row', { hasText: 'Draw' }).first().locator('.mark-noted').textContent()).toMatch(
      /1: Elbow bent/i,
    )
    expect(await page.getByRole('gridcell', { name: /^Draw, trial 3: correct/ }).count()).toBe(1)
    await page.context().close()
  })

  it('discards a draft after asking, and it is gone from the device', async () => {
    const page = await openAsOffice(world, browser, '/enter')
    const discard = page.getByRole('button', { name: 'Discard this sheet' })
    expect(await discard.count()).toBe(0)
    await typeHead(page, '1009', 'quint')
    await page.keyboard.type('111')
    const kept = () => page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('.sheet.')).length)
    expect(await kept()).toBe(1)
    await discard.click()
    await page.getByText(/Nwosu, Ines, 3 marks: it has not been stored/).waitFor()
    await page.getByRole('button', { name: 'Leave it as it is' }).click()
    expect(await kept()).toBe(1)
    await discard.click()
    await page.getByRole('button', { name: 'Discard it' }).click()
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('.enter-candidate input')?.value === '')
    expect(await kept()).toBe(0)
    expect(await page.getByLabel('Grader').inputValue()).toBe('SFC Quintrell, Bram')
    await page.context().close()
  })
})
