import fs from 'node:fs'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { type Standard, StandardBody } from '../../server/contract/standards/standards.ts'
import { axeViolations, openBrowser, openPage } from '../support/browser.ts'
import { buildTestApp, PASSWORD, type TestApp } from '../support/build-test-app.ts'
import { inTitles } from '../support/in-titles.ts'
import { atKeyboard } from './by-keyboard.ts'
import { settled } from './world.ts'

/** Somebody who looks from the sheet to the screen and back needs so long for a field. */
const SECONDS_A_FIELD = 2
const MOST_MINUTES = 15

/** The paper sheet. A fault that a gauge adds is called the same wherever it may happen. */
const PAPER = StandardBody.parse(
  JSON.parse(
    fs
      .readFileSync(new URL('../cases/standard-standing.json', import.meta.url), 'utf8')
      .replace('Head turned too far or not far enough', 'Head not turned and lowered as prescribed')
      .replaceAll('deg', '°'),
  ),
)
const titleOf = (code: string) => PAPER.minors.find((minor) => minor.code === code)!.title
/** Both present arms have these in common. */
const RESEMBLES: Readonly<Record<string, string>> = { 'present-from-order': 'present-from-carry' }

let test: TestApp
let browser: Browser
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-17T14:00:00Z', timeZone: 'America/New_York' })
  browser = await openBrowser()
})
afterAll(async () => {
  await browser?.close()
  await test?.close()
})

type Keyboard = ReturnType<typeof atKeyboard>

async function writeMinor(keys: Keyboard, minor: StandardBody['minors'][number], next: string) {
  const { from, preparatory, execution, finish, cadence, steps } = PAPER.calls.find(
    ({ measure }) => measure === minor.code,
  )!
  if (RESEMBLES[minor.code]) {
    await keys.fill('Starts from', from!)
    await keys.fill('Then, one a line', finish!.join('\n'))
    return keys.go(`Next: ${next}`)
  }
  if (minor.counts) await keys.fill('Counts', String(minor.counts))
  await keys.fill('Starts from', from!)
  await keys.fill('Preparatory command', preparatory!)
  if (typeof execution === 'object') {
    await keys.choose('Another word for each arm', ' ')
    await keys.tabTo('Preparatory command', 'Shift+Tab')
    for (const arm of PAPER.arms) await keys.fill(`Command of execution, ${arm}`, execution[arm]!)
  } else await keys.fill('Command of execution', execution!)
  await keys.lines('Then, one a line', finish ?? [])
  if (cadence) await keys.fill('Cadence', cadence)
  await keys.lines('Steps of an unbroken run, one a line', steps ?? [])
  const checks = (list: typeof minor.checks.execution) =>
    list.map(({ arm, title }) => (arm ? `${arm}: ${title}` : title))
  await keys.lines('Looked at after the preparatory command, one a line', checks(minor.checks.preparatory))
  await keys.lines('Looked at after the command of execution, one a line', checks(minor.checks.execution))
  await keys.lines(
    'Faults, one a line',
    minor.faults.map(({ title }) => title),
  )
  await keys.go(`Next: ${next}`)
}

async function writeGauge(keys: Keyboard, gauge: StandardBody['gauges'][number]) {
  const fault = PAPER.minors.flatMap(({ faults }) => faults)
  const titleOfFault = (code: string) => fault.find((one) => one.code === code)!.title
  await keys.fill('Unit', gauge.unit)
  await keys.fill('From', gauge.min!)
  await keys.fill('To', gauge.max!)
  if (gauge.target) await keys.fill('Target', gauge.target)
  await keys.choose('Fault below', titleOfFault(gauge.low!))
  await keys.choose('Fault above', titleOfFault(gauge.high!))
  for (const minor of PAPER.minors) if (minor.gauges.includes(gauge.code)) await keys.choose(minor.title, ' ')
  await keys.fill('Where the band comes from', gauge.origin!)
}

it('a clerk writes a whole standard from a paper sheet, by keyboard alone', async () => {
  const url = test.app.listeningOrigin
  const page = await openPage(browser, `${url}/sign-in`, 'desktop')
  await page.request.post(`${url}/api/session`, {
    data: { name: 'office', password: PASSWORD },
    headers: { origin: url },
  })
  await page.goto(`${url}/standards`)
  await settled(page)
  const keys = atKeyboard(page)
  await keys.fill('Title', PAPER.title)
  await keys.lines(
    'Minor measures, one a line',
    PAPER.minors.map(({ title }) => title),
  )
  await keys.go('Make the draft')
  await page.getByRole('heading', { level: 1, name: `Version 1 of ${PAPER.title} is a draft.` }).waitFor()

  for (const { title } of PAPER.majors) {
    await keys.fill('New major measure', title)
    await keys.press('Enter')
    await keys.press('Shift+Tab')
  }
  await keys.fill('Takes effect on', '01012026')
  await keys.lines('Arms, one a line', PAPER.arms)
  await keys.fill('Task', PAPER.task)
  await keys.lines('Conditions, one a line', PAPER.conditions)
  await keys.lines('Cautions, one a line', PAPER.cautions)
  await keys.fill('Standard, in words', PAPER.standard)
  await keys.lines(
    'References, one a line',
    PAPER.references.map(({ title, edition }) => `${title}; ${edition}`),
  )
  await keys.go('Next: Rule')
  await keys.go(`Next: ${PAPER.majors[0]!.title}`)
  for (const [at, major] of PAPER.majors.entries()) {
    await keys.lines('Looked at, one a line', major.criteria)
    await keys.lines(
      'Faults, one a line',
      major.faults.map(({ title }) => title),
    )
    await keys.go(`Next: ${(PAPER.majors[at + 1] ?? PAPER.minors[0]!).title}`)
  }
  for (const [at, minor] of PAPER.minors.entries()) {
    const like = RESEMBLES[minor.code]
    if (like) {
      await keys.choose('Resembles another measure', titleOf(like))
      await keys.go('Take over all but the title')
      await keys.tabTo('Title', 'Shift+Tab')
    }
    await writeMinor(keys, minor, PAPER.minors[at + 1]?.title ?? 'Gauges')
  }
  expect(await axeViolations(page)).toEqual([])

  for (const [at, gauge] of PAPER.gauges.entries()) {
    if (at > 0) await keys.tabTo('New gauge')
    else if ((await page.evaluate(() => document.activeElement?.tagName)) !== 'INPUT') await keys.tabTo('New gauge')
    keys.counts.fields += 1
    await keys.type(gauge.title)
    await keys.press('Enter')
    await keys.tabTo('What is measured', 'Shift+Tab')
    await writeGauge(keys, gauge)
  }
  await keys.go('Next: Order of calls')
  const pattern = async (one: string, other: string | null, name: string) => {
    await keys.tabTo('Measure', 'Shift+Tab').catch(() => keys.tabTo('Measure'))
    await keys.type(titleOf(one))
    await keys.choose('and', other ? titleOf(other) : 'no other')
    await keys.go(name)
  }
  await keys.tabTo('and')
  await pattern('parade-rest', 'attention', 'In pairs')
  await pattern('ceremonial-at-ease', 'guard-attention', 'In pairs')
  await pattern('carry-order', null, 'One unbroken run')
  await pattern('draw', 'return', 'In pairs')
  const call = (at: number) => page.locator(`[data-call="${at}"]`)
  await keys.tabTo((await call(0).textContent())!.trim())
  for (let at = 0; at < 5; at++) await keys.press('ArrowDown')
  await keys.press('Alt+End')
  keys.counts.fields += 1
  for (let at = 38; at > 7; at--) await keys.press('ArrowUp')
  await keys.press('Enter')
  await keys.tabTo('Then, one a line')
  await keys.press('Control+a')
  await keys.type(PAPER.calls[7]!.finish!.join('\n'))
  keys.counts.fields += 1
  expect(await axeViolations(page)).toEqual([])
  await page.getByText('Saved', { exact: true }).waitFor()

  const { items } = await test.office.get<{ items: Standard[] }>('/api/standards')
  const written = items.find(({ title }) => title === PAPER.title)!
  const { calls, gauges, ...rest } = inTitles(written)
  const asked = inTitles(PAPER)
  expect(calls).toEqual(asked.calls)
  expect(calls).toHaveLength(39)
  expect(gauges).toEqual(asked.gauges)
  expect({ ...rest }).toEqual({ ...asked, calls: undefined, gauges: undefined })

  const minutes = (keys.counts.fields * SECONDS_A_FIELD) / 60
  console.info(
    `Written with ${keys.counts.fields} fields and lines, ${keys.counts.keys} keys and no click: ${minutes.toFixed(1)} minutes at ${SECONDS_A_FIELD} s a field.`,
  )
  expect(minutes).toBeLessThan(MOST_MINUTES)
  await page.context().close()
})
