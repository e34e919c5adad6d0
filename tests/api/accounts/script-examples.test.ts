import { execFile } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import type { AddressInfo } from 'node:net'
import os from 'node:os'
import path from 'node:path'
import { promisify } from 'node:util'
import { parse } from 'csv-parse/sync'
import ICAL from 'ical.js'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeTestSetting, type TestSetting } from '../../support/factories.ts'
import { times } from '../../support/sheet-body.ts'

const run = promisify(execFile)
const README = path.resolve(import.meta.dirname, '../../../server/contract/README.md')

/** The example under a heading, as it stands in the text. */
function exampleUnder(heading: string): string {
  const text = fs.readFileSync(README, 'utf8')
  const [, code] = new RegExp(`^## ${heading}$[\\s\\S]*?^\`\`\`sh\\n([\\s\\S]*?)^\`\`\``, 'm').exec(text) ?? []
  if (code === undefined) throw new Error(`No example under ${heading}`)
  return code
}

let test: TestApp
let setting: TestSetting
let folder: string
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-15T12:00:00Z' })
  setting = await makeTestSetting(test.office)
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'script-examples-'))
})
afterAll(async () => {
  fs.rmSync(folder, { recursive: true })
  await test.close()
})

/** Runs an example as it is written, with a token for that one thing. */
async function runExample(heading: string, scope: string): Promise<void> {
  const body = { name: `${heading} ${randomUUID()}`.slice(0, 60), scopes: [scope], days: 30 }
  const { token } = await test.office.post<{ token: string }>('/api/account/tokens', body)
  const { port } = test.app.server.address() as AddressInfo
  const env = { PATH: process.env.PATH, REVIEWSTAND: `http://127.0.0.1:${port}`, TOKEN: token }
  await run('sh', ['-eu', '-c', exampleUnder(heading)], { cwd: folder, env })
}

const written = (file: string) => fs.readFileSync(path.join(folder, file), 'utf8')

it("tomorrow's roster as CSV", async () => {
  const { candidateId } = setting
  await test.office.post(`/api/soldiers/${candidateId}/absences`, {
    from: '2026-06-16',
    through: '2026-06-16',
    kind: 'leave',
  })
  await runExample("Tomorrow's roster as CSV", 'roster:read')
  const rows = parse<Record<string, string>>(written('roster.csv'), { bom: true, columns: true })
  const { items } = await test.office.get<{ items: { id: string; rosterNumber: string }[] }>('/api/soldiers')
  expect(rows.map((row) => row['Roster number'])).toEqual(items.map(({ rosterNumber }) => rosterNumber))
  const away = rows.filter(({ Absent }) => Absent !== '')
  expect(away).toMatchObject([
    { 'Roster number': items.find(({ id }) => id === candidateId)!.rosterNumber, Absent: 'leave' },
  ])
  expect(rows.every(({ Unit }) => Unit !== '')).toBe(true)
})

it('sheets from another system, sent twice and stored once', async () => {
  fs.mkdirSync(path.join(folder, 'sheets'))
  const sheets = ['2026-06-01', '2026-06-08'].map((day) => [randomUUID(), setting.sheet(times(day))] as const)
  for (const [id, sheet] of sheets) {
    fs.writeFileSync(path.join(folder, 'sheets', `${id}.json`), JSON.stringify(sheet))
  }
  await runExample('Sheets from another system', 'sheets:write')
  await runExample('Sheets from another system', 'sheets:write')
  for (const [id] of sheets) {
    expect(JSON.parse(written(`answers-${id}.json`))).toMatchObject({ id, state: 'counted' })
    expect(await test.office.get(`/api/sheets/${id}`)).toMatchObject({ revisions: [{ number: 1 }] })
  }
  const [entry] = await test.sql<{ name: string }>(
    "SELECT account_name AS name FROM record_entry WHERE action = 'sheet.submitted' ORDER BY seq DESC LIMIT 1",
  )
  expect(entry?.name).toMatch(/^office, by token Sheets from another system/)
})

it('test days as a calendar', async () => {
  await test.office.post('/api/test-days', { on: '2026-06-20', unitId: setting.unitId, place: 'Field' })
  await runExample('Test days as a calendar', 'test-days:read')
  const events = new ICAL.Component(ICAL.parse(written('test-days.ics'))).getAllSubcomponents('vevent')
  expect(events.map((one) => new ICAL.Event(one)).map(({ location, startDate }) => `${startDate} ${location}`)).toEqual(
    ['2026-06-20 Field'],
  )
})
