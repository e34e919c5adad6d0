import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeCertification, makeSoldier, makeStandard, makeUnit } from '../../support/factories.ts'
import { type Importer, makeImporter } from '../../support/import-file.ts'

let test: TestApp
let importer: Importer
beforeAll(async () => {
  test = await buildTestApp({ now: '2026-06-17T14:00:00Z' })
  importer = await makeImporter(test)
  const unit = await makeUnit(test.office, { name: 'A Company', kind: 'company' })
  for (const rosterNumber of ['C1', 'G1']) {
    await makeSoldier(test.office, unit, { rosterNumber, grade: 'SGT', arms: ['sword'] })
  }
  const standard = await makeStandard(test.office, { code: 'faults-standard', title: 'Faults standard' })
  await makeCertification(test.office, { code: 'faults-cert', title: 'Faults cert', standards: [standard] })
})
afterAll(() => test?.close())

const nobody = (number: string) =>
  `Nobody on the roster has the number ${number}. Take the roster in first, or mend the number.`
const openArm = 'The list of arms has no helberd. Say whether it is new, or which one is meant.'
const noStandard = 'There is no standard "nothing". Write its code or title, or take it in first.'
const noDate = expect.stringContaining('There is no such date as 2026-02-30')

/** What is said of each row or thing of a file, sorted. */
async function reasons(content: string, name = 'table.csv'): Promise<string[][]> {
  const sent = await importer.send(content, name)
  await importer.check(sent, { answers: { none: 'add' } })
  const rows = await importer.rows(sent)
  expect(rows.map(({ outcome }) => outcome)).toEqual(rows.map(() => 'refused'))
  return rows.map((row) => [...row.reasons])
}

const SHEET = 'Candidate,Grader,Standard,Arm,Day,Started,Finished,composure,draw,halt,turn,draw faults'

describe('all that is wrong with a row is said at once', () => {
  it.each([
    [
      'awards',
      'Roster number,Certification,Awarded on,Valid through,Evidence\nX9,nothing,2026-05-01,2026-04-01,\n',
      [
        '"Evidence" is empty.',
        'Valid through: The award ends before it begins.',
        nobody('X9'),
        'There is no certification "nothing". Write its code or title, or add it first.',
      ],
    ],
    [
      'results',
      'Candidate,Standard,Test date,Result,Graded by,Arm\nX9,nothing,2026-02-30,maybe,X8,helberd\n',
      [
        noDate,
        expect.stringContaining('"maybe" is neither GO or NO-GO'),
        openArm,
        nobody('X9'),
        nobody('X8'),
        noStandard,
      ],
    ],
    [
      'sponsorships',
      'Candidate,Sponsor,From,To\nX9,X9,2026-05-01,2026-04-01\n',
      [
        'To: The period ends before it begins.',
        'Sponsor: Nobody is their own sponsor; name another soldier.',
        nobody('X9'),
      ],
    ],
    [
      'appointments',
      'Roster number,Standard,From,To\nX9,nothing,2026-05-01,2026-04-01\n',
      ['To: The period ends before it begins.', nobody('X9'), noStandard],
    ],
    [
      'sheets',
      `${SHEET}\nX9,G1,faults-standard,helberd,2026-03-02,09:31,09:00,GO,1x1,111,111,1:none\n`,
      [
        expect.stringContaining('draw: Trials'),
        openArm,
        nobody('X9'),
        'The test is finished before it is started: mend either time.',
      ],
    ],
    [
      'sheets whose marks can be read',
      `${SHEET}\nX9,X8,faults-standard,,2026-03-02,09:00,09:31,GO,111,111,111,1:none\n`,
      [nobody('X9'), nobody('X8'), '"none" is no fault of "draw".'],
    ],
    [
      'sheets that stop too soon',
      `${SHEET}\nX9,X8,faults-standard,,2026-03-02,09:00,09:31,GO,1..,111,111,\n`,
      [nobody('X9'), nobody('X8'), expect.stringContaining('The test is not finished')],
    ],
    [
      'standards',
      'Code,Title,Effective from,Arms,Major or minor,Measure,Measure title,Gauges\ntwice,Twice,2026-02-30,helberd,,draw,Draw,tip=Tip|in|6|4\ntwice,Twice,2026-02-30,helberd,,draw,Draw,\n',
      [noDate, openArm, 'The code "draw" is used twice.', 'The band of "tip" ends below where it begins.'],
    ],
    [
      'ceremonies',
      'Ceremony,Unit,Day,Starts,Ends,Post,Row,Place,Certification,Arm,Soldier\nParade,Z Company,2026-07-01,11:00,10:00,Right,1,1,nothing,helberd,X9\nParade,Z Company,2026-07-01,11:00,10:00,Left,1,1,faults-cert,,C1\n',
      [
        openArm,
        nobody('X9'),
        'There is no certification "nothing". Write its code or title, or add it first.',
        'There is no unit "Z Company". Mend the name, or give the path from the top to add it.',
        'The ceremony ends before it starts.',
        'Row 1, place 1 has a post already: pick another.',
      ],
    ],
    [
      'ceremonies where everybody is there',
      'Ceremony,Unit,Day,Starts,Ends,Post,Row,Place,Certification,Soldier\nParade,A Company,2026-07-01,11:00,10:00,Right,1,1,faults-cert,C1\nParade,A Company,2026-07-01,11:00,10:00,Left,1,1,faults-cert,C1\n',
      [
        'The ceremony ends before it starts.',
        expect.stringContaining('named twice'),
        expect.stringContaining('place 1'),
      ],
    ],
  ])('%s', async (_, file, expected) => {
    for (const said of await reasons(file)) {
      expect(said).toEqual(expect.arrayContaining([...expected]))
      expect(said).toHaveLength(new Set(said).size)
    }
  })

  it('a roster, whose unit is looked at though the day cannot be read', async () => {
    const [said] = await reasons(
      'Roster number,Family name,Given name,Grade,Arms,Unit,From\n1,Hale,Una,SGT,helberd,Z Company,2026-02-30\n',
    )
    expect(said).toEqual([noDate, openArm, expect.stringContaining('There is no unit "Z Company"')])
  })

  it('things of JSON, of which what cannot be read is left out of account', async () => {
    const items = [
      {
        title: 'Dawn',
        unit: 'Z Company',
        startsAt: 'soon',
        endsAt: 7,
        posts: [{ title: 'Guard', row: 0, place: 'left', certification: 'nothing', rosterNumber: 'X9' }, 'nobody'],
      },
      'nothing at all',
    ]
    const [ceremony, text] = await reasons(JSON.stringify({ kind: 'ceremonies', items }), 'c.json')
    expect(ceremony).toEqual(
      expect.arrayContaining([
        nobody('X9'),
        expect.stringContaining('certification "nothing"'),
        'Posts, number 1, Row: at least 1.',
        'Posts, number 1, Place: a number belongs here.',
        'Posts, number 2: something with several fields belongs here.',
        expect.stringContaining('unit "Z Company"'),
      ]),
    )
    expect(text).toContain('something with several fields belongs here.')
  })
})
