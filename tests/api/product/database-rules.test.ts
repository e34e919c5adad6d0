import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { makeTestSetting, putSheet, type TestSetting } from '../../support/factories.ts'
import { secondPerson } from '../../support/second-person.ts'
import { NO_GO_MARKS, times } from '../../support/sheet-body.ts'

/** What PostgreSQL says: see "PostgreSQL Error Codes" in its manual, class 23. */
const CHECK = '23514'
const UNIQUE = '23505'
const FOREIGN_KEY = '23503'
const EXCLUSION = '23P01'
/** PostgreSQL before 18 says of RESTRICT what it says of any foreign key. */
const RESTRICT = expect.stringMatching(/^(23001|23503)$/)

let test: TestApp
let setting: TestSetting
let counted: string
let held: string
let practice: string
beforeAll(async () => {
  test = await buildTestApp()
  setting = await makeTestSetting(test.office)
  const { office } = test
  counted = (await putSheet(office, setting.sheet())).id
  held = (await putSheet(office, setting.sheet({ sponsorId: null, ...times('2026-04-01') }))).id
  practice = (await putSheet(office, setting.sheet({ purpose: 'practice' }))).id
  await putSheet(office, setting.sheet({ ...times('2026-05-01'), ...NO_GO_MARKS }))
  const rejected = await putSheet(office, setting.sheet({ sponsorId: null, ...times('2026-04-02') }))
  await (await secondPerson(test)).post(
    `/api/sheets/${rejected.id}/decision`,
    { decision: 'reject', reason: 'Seen' },
    200,
  )
  const { standard, certification } = setting
  await office.post(`/api/soldiers/${setting.graderId}/appointments`, {
    standard,
    from: '2026-01-01',
    to: '2026-06-30',
  })
  const body = { soldierId: setting.graderId, certification, from: '2027-01-01', reason: 'Inquiry' }
  await office.post('/api/suspensions', body)
})
afterAll(() => test.close())

/** Statements that break what the rules rely on. `$candidate` and the like stand for ids. */
const REFUSED: [what: string, sql: string, code: unknown][] = [
  ['a second row of the catalogue’s revision', 'INSERT INTO catalogue (id, revision) VALUES (2, 0)', CHECK],
  ['a standard with a code that is none', `INSERT INTO standard (code) VALUES ('a b')`, CHECK],
  ['two standards of a code', `INSERT INTO standard (code) SELECT code FROM standard`, UNIQUE],
  [
    'a change of a published version',
    `UPDATE standard_version SET definition = '{}' WHERE published_at IS NOT NULL`,
    CHECK,
  ],
  ['a published version taken back', 'UPDATE standard_version SET published_at = NULL', CHECK],
  ['a published version removed', 'DELETE FROM standard_version', CHECK],
  [
    'two published versions from the same day',
    `INSERT INTO standard_version (standard_id, version, effective_from, equivalent_to_previous, published_at, definition)
      SELECT standard_id, version + 1, effective_from, true, now(), definition FROM standard_version`,
    UNIQUE,
  ],
  [
    'a version twice',
    `INSERT INTO standard_version (standard_id, version, effective_from, equivalent_to_previous, definition)
      SELECT standard_id, version, effective_from + 1, true, definition FROM standard_version`,
    UNIQUE,
  ],
  ['terms that never end a wait', 'UPDATE certification_terms SET wait_days = -1', CHECK],
  ['terms without validity', 'UPDATE certification_terms SET validity_months = 0', CHECK],
  ['terms of no known sequence', `UPDATE certification_terms SET sequence = 'random'`, CHECK],
  ['terms twice from a day', 'INSERT INTO certification_terms SELECT * FROM certification_terms', UNIQUE],
  ['a unit of a kind that is no code', `UPDATE unit SET kind = 'a squad'`, CHECK],
  ['a unit without a name', `UPDATE unit SET name = ' '`, CHECK],
  [
    'a unit moved in the tree',
    `WITH other AS (INSERT INTO unit (name, kind, lineage) VALUES ('Other', 'unit', '{}') RETURNING id)
      UPDATE unit SET parent_id = other.id FROM other WHERE unit.id = '$unit'`,
    CHECK,
  ],
  [
    'a unit below one that is not there',
    `INSERT INTO unit (name, kind, parent_id, lineage) VALUES ('U', 'unit', gen_random_uuid(), '{}')`,
    FOREIGN_KEY,
  ],
  ['a roster number twice', `UPDATE soldier SET roster_number = 'same'`, UNIQUE],
  ['a soldier without a name', `UPDATE soldier SET family_name = ''`, CHECK],
  ['a soldier removed who has a record', `DELETE FROM soldier WHERE id = '$candidate'`, RESTRICT],
  [
    'a change that says nothing',
    `INSERT INTO soldier_change (soldier_id, from_day) VALUES ('$candidate', '2026-01-01')`,
    CHECK,
  ],
  [
    'a change that leaves and joins',
    `INSERT INTO soldier_change (soldier_id, from_day, "left", unit_id) VALUES ('$candidate', '2026-01-01', 'other', '$unit')`,
    CHECK,
  ],
  [
    'periods of a soldier that overlap',
    `INSERT INTO soldier_period (soldier_id, from_day, unit_id, grade, arms) VALUES ('$candidate', '2026-01-01', '$unit', 'SGT', '{}')`,
    EXCLUSION,
  ],
  [
    'a period that ends before it begins',
    `INSERT INTO soldier_period (soldier_id, from_day, through_day, unit_id, grade, arms)
      VALUES ('$candidate', '2010-01-02', '2010-01-01', '$unit', 'SGT', '{}')`,
    CHECK,
  ],
  [
    'a sponsorship that overlaps one of the same two',
    `INSERT INTO sponsorship (candidate_id, sponsor_id, from_day) VALUES ('$candidate', '$sponsor', '2026-02-01')`,
    EXCLUSION,
  ],
  [
    'a sponsorship of oneself',
    `INSERT INTO sponsorship (candidate_id, sponsor_id, from_day) VALUES ('$candidate', '$candidate', '2026-02-01')`,
    CHECK,
  ],
  [
    'an appointment that overlaps one of the same',
    `INSERT INTO appointment (soldier_id, standard, from_day) VALUES ('$grader', '$standard', '2026-06-30')`,
    EXCLUSION,
  ],
  [
    'an appointment for a standard that is not there',
    `INSERT INTO appointment (soldier_id, standard, from_day) VALUES ('$grader', 'nothing', '2026-06-30')`,
    FOREIGN_KEY,
  ],
  ['an award that ends before it begins', `UPDATE carried_award SET valid_through = awarded_on - 1`, CHECK],
  ['an award without evidence', `UPDATE carried_award SET evidence = ' '`, CHECK],
  ['a suspension lifted before it began', `UPDATE suspension SET lift_day = from_day - 1, lift_reason = 'R'`, CHECK],
  ['a suspension lifted without a reason', `UPDATE suspension SET lift_day = from_day`, CHECK],
  ['a sheet of no known state', `UPDATE sheet SET state = 'lost' WHERE id = '$counted'`, CHECK],
  ['a sheet of no known purpose', `UPDATE sheet SET purpose = 'fun' WHERE id = '$counted'`, CHECK],
  ['a sheet of no known outcome', `UPDATE sheet SET outcome = 'MAYBE' WHERE id = '$held'`, CHECK],
  ['a stopped sheet that is GO', `UPDATE sheet SET ending = 'stopped' WHERE id = '$counted'`, CHECK],
  ['a void that is GO', `UPDATE sheet SET ending = 'void' WHERE id = '$counted'`, CHECK],
  [
    'a sheet that ends before it begins',
    `UPDATE sheet SET finished_at = started_at - interval '1 ms' WHERE id = '$held'`,
    CHECK,
  ],
  ['a practice sheet that is held', `UPDATE sheet SET state = 'held' WHERE id = '$practice'`, CHECK],
  ['a sheet second of itself', `UPDATE sheet SET second_of = id WHERE id = '$held'`, CHECK],
  ['a held sheet in the figures', `UPDATE sheet SET tallied_kind = 'first' WHERE id = '$held'`, CHECK],
  ['a practice sheet in the figures', `UPDATE sheet SET tallied_kind = 'first' WHERE id = '$practice'`, CHECK],
  ['a counted sheet held while in the figures', `UPDATE sheet SET state = 'held' WHERE id = '$counted'`, CHECK],
  ['a sheet at a revision that is not there', `UPDATE sheet SET revision = 2 WHERE id = '$counted'`, FOREIGN_KEY],
  ['a sheet of nobody', `UPDATE sheet SET candidate_id = gen_random_uuid() WHERE id = '$held'`, FOREIGN_KEY],
  ['a sheet removed', `DELETE FROM sheet WHERE id = '$counted'`, RESTRICT],
  ['a revision rewritten', `UPDATE sheet_revision SET body = '{}' WHERE sheet_id = '$counted'`, CHECK],
  ['a revision removed', `DELETE FROM sheet_revision WHERE sheet_id = '$counted'`, CHECK],
  [
    'a later revision without a reason',
    `INSERT INTO sheet_revision (sheet_id, number, at, reason, body, score) SELECT sheet_id, 2, at, ' ', body, score
      FROM sheet_revision WHERE sheet_id = '$counted'`,
    CHECK,
  ],
  [
    'a revision twice',
    `INSERT INTO sheet_revision (sheet_id, number, at, body, score) SELECT sheet_id, number, at, body, score
      FROM sheet_revision WHERE sheet_id = '$counted'`,
    UNIQUE,
  ],
  ['a decision rewritten', `UPDATE sheet_decision SET decision = 'count'`, CHECK],
  ['a decision removed', 'DELETE FROM sheet_decision', CHECK],
  [
    'a decision without a reason',
    `INSERT INTO sheet_decision (sheet_id, revision, decision, reason, waived, at) VALUES ('$held', 1, 'count', ' ', '{}', now())`,
    CHECK,
  ],
  [
    'a standing that overlaps another',
    `INSERT INTO standing (soldier_id, certification_id, from_day, status, suspended, toward, retest_open)
      SELECT soldier_id, certification_id, from_day + 1, status, false, '[]', '{}' FROM standing LIMIT 1`,
    EXCLUSION,
  ],
  ['a standing of no known word', `UPDATE standing SET status = 'ready'`, CHECK],
  ['a standing with half an award', `UPDATE standing SET valid_through = NULL, awarded_on = '2026-01-01'`, CHECK],
  ['a retest due before the NO-GO', 'UPDATE retest_span SET due = on_day - 1', CHECK],
  ['fewer than no attempts in a tally', 'UPDATE tally SET attempts = -1', CHECK],
  ['more passes than attempts in a tally', 'UPDATE tally SET passes = attempts + 1', CHECK],
  ['more passes than attempts of a sponsor', 'UPDATE person_tally SET passes = attempts + 1', CHECK],
  ['fewer than no passes of a sponsor', 'UPDATE person_tally SET passes = -1', CHECK],
  [
    'a tally of a month that begins on its second day',
    `UPDATE tally SET start = start + 1 WHERE grain = 'month'`,
    CHECK,
  ],
  [
    'a tally twice',
    `INSERT INTO tally SELECT (jsonb_populate_record(t, '{"id": 999999}')).* FROM tally t LIMIT 1`,
    UNIQUE,
  ],
  [
    'an account name in another case',
    `INSERT INTO account (name, password_hash, roles, created_at) VALUES ('OFFICE', 'x', '{office}', now())`,
    UNIQUE,
  ],
  ['an account of no known role', `UPDATE account SET roles = '{king}'`, CHECK],
  ['an account without a role', `UPDATE account SET roles = '{}'`, CHECK],
]

describe('the database refuses by itself', () => {
  it.each(REFUSED)('%s', async (_what, statement, code) => {
    const ids: Record<string, string> = {
      $candidate: setting.candidateId,
      $sponsor: setting.sponsorId,
      $grader: setting.graderId,
      $unit: setting.unitId,
      $standard: setting.standard,
      $counted: counted,
      $held: held,
      $practice: practice,
    }
    const text = statement.replace(/\$[a-z]+/g, (name) => ids[name]!)
    await expect(test.sql(text)).rejects.toMatchObject({ code })
  })

  it('nothing that is sound', async () => {
    await test.sql(
      `INSERT INTO sponsorship (candidate_id, sponsor_id, from_day, to_day) VALUES ($1, $2, '2025-01-01', '2025-12-31')`,
      [setting.candidateId, setting.sponsorId],
    )
    await test.sql(`UPDATE sheet SET second_of = $1 WHERE id = $2`, [randomUUID(), held])
  })
})
