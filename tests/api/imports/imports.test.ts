import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { ImportColumns } from '../../../server/contract/imports/imports.ts'
import type { Notice } from '../../../server/contract/notices/notices.ts'
import type { SheetDetail } from '../../../server/contract/sheets/sheets.ts'
import type { Soldier, SoldierDetail } from '../../../server/contract/soldiers/soldiers.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { carryOver, makeCertification, makeStandard } from '../../support/factories.ts'
import { type Importer, makeImporter } from '../../support/import-file.ts'

let test: TestApp
let importer: Importer
beforeAll(async () => {
  test = await buildTestApp({ timeZone: 'America/New_York' })
  importer = await makeImporter(test)
})
afterAll(() => test.close())

const find = async (q: string) => (await test.office.get<{ items: Soldier[] }>(`/api/soldiers?q=${q}`)).items
const detail = async (q: string) => test.office.get<SoldierDetail>(`/api/soldiers/${(await find(q))[0]!.id}`)
const ROSTER = 'Roster number;Last name;First name;Rank;Arms;Unit;From;Left on;Left\r\n'
const PLATOON = 'Calloway Point Ceremonial Battalion / A Company / 1st Platoon'

describe('a roster', () => {
  const file = Buffer.from(
    `\ufeffRoster of A Company;;;\r\n\r\n${ROSTER}` +
      `I01;Amadi;Rafe;SGT;sword;rifle;${PLATOON};2024-01-01;;\r\n`.replace('sword;rifle', '"sword;rifle"') +
      `I01;;;2LT;saber;;2025-06-01;;\r\n` +
      `I02;"Ash\r\nford";Ines;CPL;none;Calloway Point Ceremonial Battalion > A Company > 2nd Platoon;5 March 2024;2025-12-31;transferred\r\n` +
      `I03;Brandt;;CPL;;${PLATOON};2024-01-01;;\r\n` +
      `I04;Nwosu;Ada;CPL;;${PLATOON};2024-02-30;;\r\n;;;;;;;;\r\n`,
  )

  it('is looked at first, then stored with the units of its paths, and the same again changes nothing', async () => {
    const before = await countRows(test)
    const sent = await importer.send(file, 'Roster A.csv')
    expect(sent).toMatchObject({ kind: 'roster', format: 'csv', rows: 5, state: 'read', fileName: 'Roster A.csv' })
    const checked = await importer.check(sent)
    expect(checked).toMatchObject({
      state: 'checked',
      counts: { added: 3, changed: 0, unchanged: 0, held: 0, refused: 2 },
    })
    expect(checked.newUnits).toEqual([
      'Calloway Point Ceremonial Battalion',
      'Calloway Point Ceremonial Battalion / A Company',
      PLATOON,
      'Calloway Point Ceremonial Battalion / A Company / 2nd Platoon',
    ])
    const own = new Set(['import_job', 'import_row', 'import_mapping'])
    const others = (counts: Record<string, number>) =>
      Object.fromEntries(Object.entries(counts).filter(([table]) => !own.has(table)))
    expect(others(await countRows(test))).toEqual(others(before))
    const rows = await importer.rows(checked)
    expect(rows.map(({ number, outcome }) => [number, outcome])).toEqual([
      [4, 'added'],
      [5, 'added'],
      [6, 'added'],
      [7, 'refused'],
      [8, 'refused'],
    ])
    expect(rows[3]!.reasons).toEqual(['Somebody new needs a family name and a given name.'])
    expect(rows[4]!.reasons[0]).toContain('There is no such date as 2024-02-30')

    expect((await test.office.refused(409, 'POST', `/api/imports/${sent.id}/store`, {})).type).toMatch(/rows-refused$/)
    expect(await importer.store(checked, true)).toMatchObject({ state: 'stored', problem: null })
    const amadi = await detail('I01')
    expect(amadi.periods).toMatchObject([
      { from: '2024-01-01', through: '2025-05-31', grade: 'SGT', arms: ['sword', 'rifle'] },
      { from: '2025-06-01', through: null, grade: '2LT', arms: ['saber'] },
    ])
    expect((await detail('I02')).left).toEqual({ on: '2025-12-31', kind: 'transferred' })
    const again = await importer.check(await importer.send(file))
    expect(again.counts).toEqual({ added: 0, changed: 0, unchanged: 3, held: 0, refused: 2 })
    const stored = await countRows(test)
    await importer.store(again, true)
    const { record_entry: entries, ...rest } = others(await countRows(test))
    const { record_entry: earlier, ...same } = others(stored)
    expect(rest).toEqual(same)
    expect(entries).toBe(earlier! + 1)
  })

  it('gives the refused rows back to be mended, and takes them then', async () => {
    const sent = await importer.check(await importer.send(file))
    const refused = (await importer.refusedFile(sent)).toString()
    expect(refused).toContain('Somebody new needs a family name')
    const mended = refused.replace('Brandt,,', 'Brandt,Louisa,').replace('2024-02-30', '2024-02-29')
    const stored = await importer.all(mended)
    expect(stored.counts).toMatchObject({ added: 2, refused: 0 })
    expect(await find('I03')).toMatchObject([{ familyName: 'Brandt', givenName: 'Louisa' }])
  })

  it('says what it changes about who is there', async () => {
    const sent = await importer.send(`${ROSTER}I03;Brandt;Luisa;SGT;;;2026-01-01;;\n`)
    const answers = { 'name:I03:Brandt, Luisa': 'as-given', 'grade:SGT': 'add' }
    const checked = await importer.check(sent, { answers })
    expect(checked.counts).toMatchObject({ changed: 1 })
    expect((await importer.rows(checked))[0]!.reasons).toEqual([
      'name Brandt, Louisa is corrected',
      'grade CPL → SGT, from 2026-01-01',
    ])
  })

  it('never takes a misspelt unit for a new one', async () => {
    const checked = await importer.check(await importer.send(`${ROSTER}I09;Doe;Jo;SGT;;1st Plattoon;2026-01-01;;\n`))
    expect((await importer.rows(checked))[0]).toMatchObject({
      outcome: 'refused',
      reasons: [expect.stringContaining('There is no unit "1st Plattoon"')],
    })
  })
})

describe('columns and dates', () => {
  it('are suggested, can be chosen, and are remembered for the same labels', async () => {
    const content = 'Nr;Family;Vorname;Dienstgrad;Wohin;Since when\nI20;Quint;Bo;SGT;1st Platoon;2026-01-01\n'
    const sent = await importer.send(content)
    const asked = await test.office.post<ImportColumns>(`/api/imports/${sent.id}/columns`, { kind: 'roster' }, 200)
    const index = Object.fromEntries(asked.columns.map(({ key, index }) => [key, index]))
    expect(index).toMatchObject({ familyName: 1, givenName: 2, grade: 3, rosterNumber: null, from: null, unit: null })
    expect(asked.file[4]).toEqual({ label: 'Wohin', samples: ['1st Platoon'] })
    const mapping = { rosterNumber: 0, familyName: 1, givenName: 2, grade: 3, unit: 4, from: 5 }
    expect((await importer.check(sent, { mapping })).counts).toMatchObject({ added: 1 })
    const next = await importer.send(content.replace('I20', 'I21'))
    const remembered = await test.office.post<ImportColumns>(`/api/imports/${next.id}/columns`, { kind: 'roster' }, 200)
    expect(remembered.columns.find(({ key }) => key === 'unit')).toMatchObject({ index: 4, how: 'remembered' })
  })

  it('are asked about where they may be two days, once a column, and never guessed', async () => {
    const sent = await importer.send(
      `${ROSTER}I30;Vale;Kim;SGT;;1st Platoon;3/4/2025;;\nI31;Vale;Lou;SGT;;1st Platoon;5/6/2025;;\n`,
    )
    const problem = await test.office.refused(422, 'POST', `/api/imports/${sent.id}/check`, { kind: 'roster' })
    expect(problem).toMatchObject({
      type: 'urn:reviewstand:problem:ambiguous-dates',
      errors: [{ pointer: '/dates/from' }],
    })
    const asked = await test.office.post<ImportColumns>(`/api/imports/${sent.id}/columns`, { kind: 'roster' }, 200)
    expect(asked.questions).toMatchObject([
      { key: 'from', answers: ['day-first', 'month-first'], examples: ['3/4/2025', '5/6/2025'], rows: 2 },
    ])
    await importer.store(await importer.check(sent, { dates: { from: 'month-first' } }))
    expect((await detail('I30')).joined).toBe('2025-03-04')
  })
})

describe('facts about soldiers', () => {
  let standard: string
  let certification: string
  beforeAll(async () => {
    standard = await makeStandard(test.office, { code: 'import-standard', title: 'Import standard' })
    certification = await makeCertification(test.office, {
      code: 'import-cert',
      title: 'Import cert',
      standards: [standard],
    })
    const people = ['S1;Sponsor;A', 'S2;Grader;B', 'S3;Candidate;C', 'S4;Candidate;D']
    await importer.all(
      `${ROSTER}${people.map((person) => `${person};SGT;sword;1st Platoon;2020-01-01;;`).join('\n')}\n`,
    )
  })

  it('are awards with their evidence', async () => {
    const file =
      'Roster number,Certification,Awarded on,Valid through,Evidence\nS1,Import cert,2025-09-01,2026-12-31,Binder 4\nS2,import-cert,2025-09-01,2026-12-31,Binder 4\nS2,import-cert,2025-09-01,2026-12-30,Binder 5\nS9,nothing,2025-09-01,2026-12-31,Binder 4\nS1,import-cert,2025-09-01,2020-12-31,Binder 4\n'
    const stored = await importer.all(file)
    expect(stored.counts).toEqual({ added: 2, changed: 0, unchanged: 0, held: 0, refused: 3 })
    expect((await detail('S1')).awards).toMatchObject([
      { certification, validThrough: '2026-12-31', evidence: 'Binder 4' },
    ])
    const { items } = await test.office.get<{ items: { status: string }[] }>(
      `/api/soldiers/${(await find('S1'))[0]!.id}/status?asOf=2026-06-15`,
    )
    expect(items).toContainEqual(expect.objectContaining({ certification, status: 'certified' }))
    expect((await importer.all(file)).counts).toMatchObject({ added: 0, unchanged: 2, refused: 3 })
  })

  it('are sponsorships and appointments, which a later file may end', async () => {
    const coached = (to: string) =>
      `Candidate,Sponsor,From,To\nS3,S1,2026-01-01,${to}\nS4,S1,2026-01-01,\nS3,S3,2026-01-01,\n`
    expect((await importer.all(coached(''))).counts).toMatchObject({ added: 2, refused: 1 })
    expect((await importer.all(coached(''))).counts).toMatchObject({ unchanged: 2, refused: 1 })
    const appointed = 'Roster number,Standard,From,To\nS4,import-standard,2026-01-01,2026-12-31\n'
    expect((await importer.all(appointed)).counts).toMatchObject({ added: 1 })
    expect((await importer.all(appointed)).counts).toMatchObject({ unchanged: 1 })
    expect((await importer.all(appointed.replace('2026-01-01', '2026-03-01'))).counts).toMatchObject({ refused: 1 })
  })

  it('are whole sheets, whose rules hold as for any other', async () => {
    const file = [
      'Candidate,Grader,Sponsor,Standard,Arm,Day,Started,Finished,composure,draw,halt,turn,draw faults,halt readings,Notes',
      'S3,S2,S1,import-standard,sword,2026-03-02,09:00,09:31,GO,101,11.,001,2:slow,1:5.0;3:6.5,windy',
      'S4,S2,,import-standard,sword,2026-03-02,09:00,09:31,GO,111,111,111,,,',
      'S4,S2,S1,import-standard,sword,2026-03-03,09:00,09:31,GO,1x1,111,111,,,',
      'S4,S2,S1,import-standard,sword,2026-03-04,09:00,09:31,GO,1..,111,111,,,',
    ].join('\n')
    const checked = await importer.check(await importer.send(file))
    expect((await importer.rows(checked)).map(({ outcome, reasons }) => [outcome, reasons[0]?.slice(0, 22)])).toEqual([
      ['refused', expect.anything()],
      ['held', expect.stringContaining('sponsor')],
      ['refused', expect.stringContaining('draw: Trials')],
      ['refused', expect.stringContaining('The test is not')],
    ])
  })

  it('that count, are read to the letter, and are the same the second time', async () => {
    const file = [
      'Candidate,Grader,Sponsor,Standard,Arm,Day,Started,Finished,composure,draw,halt,turn,draw faults,halt readings,Notes',
      'S3,S2,S1,import-standard,sword,2026-03-02,09:00,09:31,GO,101,111,001,2:slow,1:5.0;3:6.5,windy',
    ].join('\n')
    expect((await importer.all(file)).counts).toMatchObject({ added: 1, held: 0, refused: 0 })
    const { id } = (await find('S3'))[0]!
    const { items } = await test.office.get<{ items: { id: string }[] }>(`/api/sheets?soldierId=${id}`)
    const sheet = await test.office.get<SheetDetail>(`/api/sheets/${items[0]!.id}`)
    expect(sheet).toMatchObject({
      state: 'counted',
      day: '2026-03-02',
      startedAt: '2026-03-02T14:00:00.000Z',
      notes: 'windy',
      minors: [
        { code: 'draw', trials: ['correct', 'incorrect', 'correct'], faults: [{ trial: 2, code: 'slow' }] },
        {
          code: 'halt',
          readings: [
            { trial: 1, gauge: 'tip', value: '5.0' },
            { trial: 3, gauge: 'tip', value: '6.5' },
          ],
        },
        { code: 'turn' },
      ],
    })
    expect((await importer.all(file)).counts).toMatchObject({ unchanged: 1 })
    const other = await importer.check(await importer.send(file.replace('windy', 'calm')))
    expect((await importer.rows(other))[0]).toMatchObject({
      outcome: 'refused',
      reasons: [expect.stringContaining('Amend it there')],
    })
  })

  it('that come after a later one of the same soldier say so, and the office is told once of each soldier', async () => {
    const late = async () => {
      const { items } = await test.office.get<{ items: Notice[] }>('/api/notices?limit=500')
      return items.filter(({ kind }) => kind === 'sheet arrived late')
    }
    expect(await late()).toEqual([])
    test.clock.now = new Date(test.clock.now.getTime() + 60_000)
    const file = [
      'Candidate,Grader,Sponsor,Standard,Arm,Day,Started,Finished,composure,draw,halt,turn',
      'S3,S2,S1,import-standard,sword,2026-02-03,09:00,09:31,GO,111,111,111',
      'S3,S2,S1,import-standard,sword,2026-02-02,09:00,09:31,GO,111,111,111',
    ].join('\n')
    expect((await importer.all(file)).counts).toMatchObject({ added: 2, refused: 0 })
    const { id } = (await find('S3'))[0]!
    const { items } = await test.office.get<{ items: { id: string; day: string }[] }>(`/api/sheets?soldierId=${id}`)
    const isLate = async (sheet: { id: string; day: string }) => {
      const { arrivedLate } = await test.office.get<SheetDetail>(`/api/sheets/${sheet.id}`)
      return [sheet.day, arrivedLate]
    }
    expect(Object.fromEntries(await Promise.all(items.map(isLate)))).toEqual({
      '2026-02-02': true,
      '2026-02-03': true,
      '2026-03-02': false,
    })
    expect(await late()).toMatchObject([{ aboutId: id, toOffice: true, day: '2026-02-02' }])
  })

  it('are results of which only the outcome is known', async () => {
    const file =
      'Candidate,Standard,Test date,Result,Graded by\nS4,Import standard,2025-11-04,passed,S2\nS4,Import standard,2025-11-05,maybe,S2\n'
    expect((await importer.all(file)).counts).toMatchObject({ added: 1, refused: 1 })
    expect((await importer.all(file)).counts).toMatchObject({ unchanged: 1, refused: 1 })
  })

  it('are ceremonies with their posts', async () => {
    const file =
      'Ceremony,Unit,Day,Starts,Ends,Post,Row,Place,Certification,Soldier\nParade,A Company,2026-07-01,10:00,11:00,Right guard,1,1,import-cert,S1\nParade,A Company,2026-07-01,10:00,11:00,Left guard,1,2,import-cert,\n'
    expect((await importer.all(file)).counts).toMatchObject({ added: 2 })
    expect((await importer.all(file)).counts).toMatchObject({ unchanged: 2 })
    expect((await importer.all(file.replace('Left guard', 'Left'))).counts).toMatchObject({ refused: 2 })
  })
})

describe('standards', () => {
  it('are taken in from JSON as the cases have them, as drafts', async () => {
    const file = fs.readFileSync(new URL('../../cases/standard-standing.json', import.meta.url))
    expect((await importer.all(file)).counts).toMatchObject({ added: 1 })
    expect((await importer.all(file)).counts).toMatchObject({ unchanged: 1 })
    const { items } = await test.office.get<{ items: { code: string; publishedAt: null }[] }>('/api/standards')
    expect(items).toContainEqual(expect.objectContaining({ code: 'sword-saber-standing', publishedAt: null }))
  })

  it.each(['csv', 'xlsx', 'json'] as const)(
    'go out as %s and in again without a change, each version alone',
    async (format) => {
      const { items } = await test.office.get<{ items: { id: string; code: string }[] }>('/api/standards')
      const { id } = items.find(({ code }) => code === 'sword-saber-standing')!
      const file = await importer.file(`/api/import-templates/standards?format=${format}&version=${id}`)
      const { counts } = await importer.all(file)
      expect(counts).toMatchObject({ added: 0, changed: 0, refused: 0 })
      expect(counts?.unchanged).toBeGreaterThan(0)
      await test.office.refused(404, 'GET', `/api/import-templates/standards?version=${randomUUID()}`)
      await test.office.refused(422, 'GET', `/api/import-templates/sheets?version=${id}`)
    },
  )

  it('of a table need only titles where nobody has chosen codes', async () => {
    const file =
      'Code,Title,Effective from,What the row is,Measure title,Faults,Trial,Starts from,Command of execution,Task,Trials,Needed\nplain,Plain,2026-01-01,,Right face,Too slow;Wrong way,,,,Turn,2,1\nplain,Plain,2026-01-01,call,Right face,,2,order,FACE,,2,1\nplain,Plain,2026-01-01,call,Right face,,1,order,FACE,,2,1\n'
    expect((await importer.all(file)).counts).toMatchObject({ added: 3 })
    const { items } = await test.office.get<{ items: { code: string }[] }>('/api/standards')
    expect(items.find(({ code }) => code === 'plain')).toMatchObject({
      task: 'Turn',
      minors: [{ code: 'right-face', faults: [{ code: 'too-slow', title: 'Too slow' }, { code: 'wrong-way' }] }],
      calls: [
        { measure: 'right-face', trial: 2, from: 'order', execution: 'FACE' },
        { measure: 'right-face', trial: 1 },
      ],
    })
  })

  it('are taken in from a table, a row a measure', async () => {
    const file =
      'Code,Title,Effective from,Major or minor,Measure,Measure title,Faults,Gauges\ntable-standard,From a table,2026-01-01,major,composure,Composure,spoke=Spoke,\ntable-standard,From a table,2026-01-01,,draw,Draw,slow=Too slow;low=Too low,tip=Tip height|in|4|6|low|\n'
    expect((await importer.all(file)).counts).toMatchObject({ added: 2 })
    const { items } = await test.office.get<{ items: { code: string }[] }>('/api/standards')
    expect(items.find(({ code }) => code === 'table-standard')).toMatchObject({
      majors: [{ code: 'composure' }],
      minors: [{ code: 'draw', gauges: ['tip'], faults: [{ code: 'slow', title: 'Too slow' }, { code: 'low' }] }],
      gauges: [{ code: 'tip', unit: 'in', min: '4', max: '6', low: 'low' }],
    })
  })
})

describe('a file', () => {
  it.each([
    ['', '422 urn:reviewstand:problem:empty-file'],
    ['%PDF-1.7', '422 urn:reviewstand:problem:no-spreadsheet'],
    ['x,y\n1,2\n', '422 urn:reviewstand:problem:no-header'],
    ['Candidate,Sponsor,From\n', '422 urn:reviewstand:problem:header-only'],
    ['[{"a": 1}]', '422 urn:reviewstand:problem:unknown-layout'],
  ])('that is none (%s) is refused with what to do', async (content, start) =>
    expect((await importer.refused(content)).startsWith(start)).toBe(true),
  )

  it('is seen by nobody but whoever sent it', async () => {
    const sent = await importer.send('Candidate,Sponsor,From\nS3,S1,2026-01-01\n')
    const other = await test.signedIn({ name: 'another office' })
    await other.refused(404, 'GET', `/api/imports/${sent.id}`)
    await other.refused(404, 'POST', `/api/imports/${sent.id}/check`, { kind: 'sponsorships' })
    const leader = await test.signedIn({ name: 'a leader', roles: ['leader'] })
    await leader.refused(403, 'GET', '/api/imports')
  })

  it('is not stored where the record has changed since it was checked', async () => {
    const checked = await importer.check(
      await importer.send(
        `Roster number,Certification,Awarded on,Valid through,Evidence\nS3,import-cert,2024-09-01,2025-01-31,Paper\n`,
      ),
    )
    await carryOver(test.office, (await find('S3'))[0]!.id, 'import-cert', {
      awardedOn: '2024-09-01',
      validThrough: '2025-01-30',
    })
    const after = await importer.store(checked)
    expect(after).toMatchObject({
      state: 'checked',
      problem: expect.stringContaining('has changed since'),
      counts: { added: 0, refused: 1 },
    })
  })

  it('is there as a template for every kind', async () => {
    for (const kind of ['roster', 'sheets', 'ceremonies']) {
      const answer = await test.office.tries('GET', `/api/import-templates/${kind}?format=csv`)
      expect(answer.status).toBe(200)
      const sent = await importer.send(String(answer.body))
      expect(sent.kind).toBe(kind)
    }
    await test.office.refused(400, 'GET', `/api/import-templates/${randomUUID()}`)
  })

  it('is removed when its day is over', async () => {
    const sent = await importer.send('Candidate,Sponsor,From\nS3,S1,2026-01-01\n')
    test.clock.now = new Date(test.clock.now.getTime() + 25 * 3_600_000)
    const office = await makeImporter(test)
    await office.send('Candidate,Sponsor,From\nS3,S1,2026-01-01\n')
    expect(await test.sql('SELECT 1 FROM import_job WHERE id = $1', [sent.id])).toEqual([])
  })
})
