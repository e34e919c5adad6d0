import fs from 'node:fs'
import { parse } from 'csv-parse/sync'
import type { Browser, Page } from 'playwright-core'
import readXlsxFile from 'read-excel-file/node'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { MeasureFindings } from '../../server/contract/findings/findings.ts'
import { axeViolations, openBrowser } from '../support/browser.ts'
import { makeSoldier } from '../support/factories.ts'
import { buildWorld, openAsOffice, settled, type World } from './world.ts'

/** More than a page of the list has. */
const MANY = 130

let world: World
let browser: Browser
beforeAll(async () => {
  world = await buildWorld()
  for (let number = 0; number < MANY; number += 1) {
    await makeSoldier(world.app.office, world.platoonId, {
      rosterNumber: number === 9 ? '=1+1' : `7${String(number).padStart(3, '0')}`,
      grade: 'PV2',
      familyName: number === 7 ? '=HYPERLINK("x")' : `Dunmore-${number}`,
      givenName: 'Ida',
      arms: ['rifle'],
    })
  }
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await world?.close()
})

/** Saves the list by the button of this format. Out: the bytes, and what the file is called. */
async function save(page: Page, caption: string, format: 'CSV' | 'XLSX'): Promise<{ content: Buffer; name: string }> {
  const downloading = page.waitForEvent('download')
  await page.getByRole('button', { name: `Save ${caption} as ${format}` }).click()
  const download = await downloading
  return { content: fs.readFileSync(await download.path()), name: download.suggestedFilename() }
}

const fromCsv = (content: Buffer): string[][] => parse(content, { bom: true })

const fromXlsx = async (content: Buffer): Promise<string[][]> => {
  const [sheet] = await readXlsxFile(content)
  return sheet!.data.map((row) => row.map((cell) => (cell === null ? '' : String(cell))))
}

/** The rows that the page shows by what is drawn, in text. */
const onScreen = (page: Page) => page.locator('.table tbody tr').count()

describe.each(['phone', 'desktop'] as const)('a paged list with a filter, on a %s', (screen) => {
  it('is saved whole as CSV and XLSX, and only what the filter lets through', async () => {
    const page = await openAsOffice(world, browser, '/people?grade=PV2', { screen })
    await page.getByRole('link', { name: /Dunmore-0/ }).waitFor()
    expect(await axeViolations(page)).toEqual([])
    expect(await onScreen(page)).toBeLessThan(MANY)
    const caption = (await page.locator('.table caption').textContent())!
    const csv = await save(page, caption, 'CSV')
    const rows = fromCsv(csv.content)
    expect(csv.name).toMatch(/-2026-06-17\.csv$/)
    expect(rows).toHaveLength(MANY + 1)
    expect(await onScreen(page)).toBe(MANY)
    const xlsx = await save(page, caption, 'XLSX')
    const cells = await fromXlsx(xlsx.content)
    expect(cells).toHaveLength(MANY + 1)

    const { items } = await world.app.office.get<{ items: { rosterNumber: string; familyName: string }[] }>(
      '/api/soldiers?grade=PV2&limit=500',
    )
    expect(items).toHaveLength(MANY)
    for (const [place, { rosterNumber, familyName }] of items.entries()) {
      expect(rows[place + 1]!.join('|')).toContain(rosterNumber)
      expect(rows[place + 1]!.join('|')).toContain(familyName)
      expect(cells[place + 1]!.join('|')).toContain(familyName)
    }
    const heads = ['Grade', 'Name', 'Roster number', 'Unit', 'Arms']
    expect(rows[0]).toEqual(heads)
    expect(cells[0]).toEqual(heads)
    // Whoever opens it runs nothing.
    for (const field of rows.flat()) expect(field).not.toMatch(/^[=+@]/)
    await page.context().close()
  })
})

describe('lists that are drawn', () => {
  it('who can stand by platoon is saved with its figures', async () => {
    const page = await openAsOffice(world, browser, '/stand')
    const rows = fromCsv((await save(page, 'Who can stand by platoon', 'CSV')).content)
    const { counts } = await world.app.office.get<{
      counts: { unitId: string; required: boolean; status: string; count: number }[]
    }>('/api/readiness')
    const required = counts.filter((one) => one.required && one.unitId === world.platoonId)
    expect(rows).toHaveLength(2)
    expect(Number(rows[1]![2])).toBe(required.reduce((sum, { count }) => sum + count, 0))
    const certified = required.filter(({ status }) => status === 'certified').reduce((sum, { count }) => sum + count, 0)
    expect(Number(rows[1]![rows[0]!.indexOf('Certified')])).toBe(certified)
    await page.context().close()
  })

  it('attempts are saved with the outcome of every measure, and a roster with every post', async () => {
    const page = await openAsOffice(world, browser, `/candidates/${world.candidateId}`)
    const attempts = fromCsv((await save(page, 'Attempts by measure', 'CSV')).content)
    expect(attempts).toHaveLength(3)
    const [heads, latest, first] = attempts as [string[], string[], string[]]
    const under = (row: string[], head: string) => row[heads.indexOf(head)]
    expect([under(latest, 'Day'), under(latest, 'Outcome'), under(latest, 'Minors GO')]).toEqual([
      '2026-05-26',
      'NO-GO',
      '10',
    ])
    expect([under(first, 'Day'), under(first, 'Minors GO'), under(first, 'Attempt')]).toEqual(['2026-05-05', '8', '1'])
    expect([under(first, 'Draw'), under(first, 'Draw: correct'), under(first, 'Draw: incorrect')]).toEqual([
      'NO-GO',
      '0',
      '2',
    ])
    await page.goto(`${world.url}/ceremonies/${world.ceremonyId}/roster`)
    await settled(page)
    const posts = fromCsv((await save(page, 'Posts of Founders’ Parade', 'CSV')).content)
    expect(posts.map(([, , post]) => post)).toEqual([
      'Post',
      'Commander of troops',
      'Colours, right guard',
      'Colours, left guard',
    ])
    await page.context().close()
  })
})

describe('findings', () => {
  it('are saved with a column for each fact, shares and bounds as numbers', async () => {
    const page = await openAsOffice(world, browser, '/findings/measures')
    const [heads, first] = fromCsv(
      (await save(page, 'Minor measures, the one that fails most first', 'CSV')).content,
    ) as [string[], string[]]
    expect(heads).toEqual([
      ...['Measure', 'Standard', 'NO-GO', 'Tested', 'Share NO-GO', 'Share NO-GO, from', 'Share NO-GO, to'],
      ...['Trials incorrect', 'Trials', 'Faults'],
    ])
    const { items } = await world.app.office.get<MeasureFindings>('/api/findings/measures')
    const { noGo, tested, rate, incorrect, trials } = items[0]!
    expect(first.slice(2, 9).map(Number)).toEqual([
      noGo,
      tested,
      rate.rate,
      rate.interval!.low,
      rate.interval!.high,
      incorrect,
      trials,
    ])
    await page.context().close()
  })
})
