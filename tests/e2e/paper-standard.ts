import fs from 'node:fs'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { type Standard, StandardBody } from '../../server/contract/standards/standards.ts'
import { axeViolations } from '../support/browser.ts'
import { inTitles } from '../support/in-titles.ts'
import type { Hands } from './by-keyboard.ts'

/** The paper sheet. A fault that a gauge adds is called the same wherever it may happen. */
export const PAPER = StandardBody.parse(
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

async function writeMinor(keys: Hands, minor: StandardBody['minors'][number], next: string) {
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

async function writeGauge(keys: Hands, gauge: StandardBody['gauges'][number]) {
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

/** Writes the whole standard from the page of standards on, until it is kept as a draft. */
export async function writePaperStandard(page: Page, keys: Hands): Promise<void> {
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
    await keys.choose('Measure', titleOf(one), 'Shift+Tab').catch(() => keys.choose('Measure', titleOf(one)))
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
}

/** The standard as it was written equals the one of the file, call by call. */
export function expectAsOnPaper(items: readonly Standard[]): void {
  const written = items.find(({ title }) => title === PAPER.title)!
  const { calls, gauges, ...rest } = inTitles(written)
  const asked = inTitles(PAPER)
  expect(calls).toEqual(asked.calls)
  expect(calls).toHaveLength(39)
  expect(gauges).toEqual(asked.gauges)
  expect({ ...rest }).toEqual({ ...asked, calls: undefined, gauges: undefined })
}
