import { randomUUID } from 'node:crypto'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { RecordItem, RecordVerification } from '../../../server/contract/record/record.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import type { Client } from '../../support/client.ts'
import { makeTestSetting, putSheet } from '../../support/factories.ts'
import { secondPerson } from '../../support/second-person.ts'

let test: TestApp
let administrator: Client

beforeEach(async () => {
  test = await buildTestApp()
  administrator = await test.signedIn({ name: 'warden', roles: ['administrator'] })
})
afterEach(() => test.close())

const verify = () => administrator.get<RecordVerification>('/api/record/verification')
const search = async (query = '') => (await administrator.get<{ items: RecordItem[] }>(`/api/record?${query}`)).items

/** Changes the record past the product, with its triggers off and the right taken back, as its owner could. */
async function tamper(sql: string): Promise<void> {
  await test.sql('GRANT UPDATE, DELETE ON record_entry TO CURRENT_USER')
  await test.sql('ALTER TABLE record_entry DISABLE TRIGGER USER')
  await test.sql(sql)
  await test.sql('ALTER TABLE record_entry ENABLE TRIGGER USER')
}

describe('the record, searched', () => {
  it('finds what is about a soldier, by kind and page by page, and nothing of others', async () => {
    const [one, other] = [await makeTestSetting(test.office), await makeTestSetting(test.office)]
    const sheets = [randomUUID(), randomUUID()]
    for (const id of sheets) await putSheet(test.office, one.sheet(), id)
    await putSheet(test.office, other.sheet())
    const about = await search(`soldierId=${one.candidateId}&limit=500`)
    expect(about.map(({ action }) => action)).toEqual([
      'sheet.submitted',
      'sheet.submitted',
      'sponsorship.added',
      'soldier.created',
    ])
    const bySheet = await search(`soldierId=${one.candidateId}&kind=sheets`)
    expect(bySheet.map(({ subjectId }) => subjectId)).toEqual([...sheets].reverse())
    const first = await administrator.get<{ items: RecordItem[]; next: string }>(
      `/api/record?soldierId=${one.candidateId}&limit=3`,
    )
    const rest = await search(`soldierId=${one.candidateId}&limit=3&after=${first.next}`)
    expect([...first.items, ...rest]).toEqual(about)
    await test.office.refused(403, 'GET', `/api/record?soldierId=${one.candidateId}`)
    await administrator.refused(400, 'GET', '/api/record?kind=weather')
  })

  it('keeps sign-ins apart from changes', async () => {
    await makeTestSetting(test.office)
    const all = await search('limit=500')
    const isSignIn = ({ action }: RecordItem) => action.startsWith('session.')
    expect(all.some(isSignIn)).toBe(true)
    expect(await search('limit=500&kind=sign-ins')).toEqual(all.filter(isSignIn))
    expect(await search('limit=500&kind=changes')).toEqual(all.filter((entry) => !isSignIn(entry)))
    const people = await search('limit=500&kind=people')
    expect(new Set(people.map(({ action }) => action))).toEqual(
      new Set(['soldier.created', 'unit.created', 'lists.added']),
    )
  })

  it('reads a kind down an index, newest first, without sorting what it does not show', async () => {
    await test.sql(`INSERT INTO record_entry (at, action, subject_kind)
      SELECT now(), CASE WHEN n % 50 = 0 THEN 'backup.begun' ELSE 'session.opened' END, 'x' FROM generate_series(1, 3000) n`)
    await test.sql('ANALYZE record_entry')
    for (const condition of [`split_part(action, '.', 1) = 'backup'`, `split_part(action, '.', 1) <> 'session'`]) {
      const plan = await test.sql<{ 'QUERY PLAN': string }>(
        `EXPLAIN SELECT * FROM record_entry WHERE ${condition} ORDER BY seq DESC LIMIT 5`,
      )
      expect(plan.map((row) => row['QUERY PLAN']).join('\n')).toMatch(/record_entry_(kind|changes)/)
    }
  })
})

describe('the record of changes', () => {
  it('has an entry for each change, with who, when, from where, before, after and why', async () => {
    const setting = await makeTestSetting(test.office)
    const id = randomUUID()
    await putSheet(
      test.office,
      { ...setting.sheet(), conditions: { uniform: false, equipment: true, sponsorPresent: true } },
      id,
    )
    await (await secondPerson(test)).post(
      `/api/sheets/${id}/decision`,
      { decision: 'count', reason: 'Uniform was right, misread' },
      200,
    )
    const both = await test.signedIn({ name: 'both', roles: ['administrator', 'office'] })
    const { items } = await both.get<{ items: RecordItem[] }>(`/api/record?subjectId=${id}`)
    const [decided, submitted] = items
    expect(submitted).toMatchObject({
      action: 'sheet.submitted',
      accountName: 'office',
      address: expect.stringMatching(/127\.0\.0\.1/),
      at: '2026-06-15T12:00:00.000Z',
      subjectKind: 'sheet',
      after: { state: 'held', outcome: 'GO', violations: ['conditions'] },
    })
    expect(decided).toMatchObject({
      action: 'sheet.decided',
      before: { state: 'held' },
      after: { state: 'counted', waived: ['conditions'] },
      reason: 'Uniform was right, misread',
    })
    const told = await search(`subjectId=${id}`)
    expect(told.map(({ action }) => action)).toEqual(['sheet.decided', 'sheet.submitted'])
    for (const { before, after, reason } of told) expect([before, after, reason]).toEqual([null, null, null])
  })

  it('stores no entry for a change that was refused, and no password or token anywhere', async () => {
    const before = (await search('limit=500')).length
    await test.office.refused(422, 'POST', '/api/units', { name: '', kind: 'unit' })
    await test.office.refused(422, 'POST', '/api/soldiers', {})
    expect((await search('limit=500')).length).toBe(before)
    const rows = await test.sql<{ text: string }>('SELECT record_entry::text AS text FROM record_entry')
    // How somebody signed in is a word of ours.
    const said = rows.map(({ text }) => text.replaceAll('""by"": ""password""', ''))
    expect(said.filter((text) => /password|battery staple|\$argon2/.test(text))).toEqual([])
  })

  it('is searched by account, action, day and subject, and paged', async () => {
    await makeTestSetting(test.office)
    expect((await search('account=OFFICE&action=soldier.created')).length).toBe(3)
    expect(await search('account=nobody')).toEqual([])
    expect((await search('from=2026-06-15&to=2026-06-15')).length).toBeGreaterThan(5)
    expect(await search('to=2026-06-14')).toEqual([])
    const first = await administrator.get<{ items: RecordItem[]; next: string }>('/api/record?limit=2')
    const second = await administrator.get<{ items: RecordItem[] }>(`/api/record?limit=2&after=${first.next}`)
    const numbers = [...first.items, ...second.items].map(({ seq }) => seq)
    expect(numbers).toEqual([0, 1, 2, 3].map((back) => numbers[0]! - back))
  })

  it('is for administrators only', async () => {
    await test.office.refused(403, 'GET', '/api/record')
    await test.office.refused(403, 'GET', '/api/record/verification')
  })

  it('cannot be changed, emptied or bent by the product’s own role', async () => {
    await makeTestSetting(test.office)
    for (const sql of [
      "UPDATE record_entry SET reason = 'x'",
      "UPDATE record_entry SET reason = NULL, what_salt = NULL, what_digest = '\\x00'",
      'UPDATE record_entry SET seq = 0',
      'DELETE FROM record_entry',
      'TRUNCATE record_entry',
      'UPDATE record_head SET seq = 0',
      'DELETE FROM record_head',
    ]) {
      await expect(test.sql(sql), sql).rejects.toThrow(/permission denied|never changed|moves only/)
    }
  })

  it('numbers and chains by itself whatever is sent in', async () => {
    await makeTestSetting(test.office)
    await test.sql(`INSERT INTO record_entry (seq, at, action, subject_kind, previous_hash, hash)
      VALUES (1, now(), 'forged', 'sheet', '\\x00', '\\x00')`)
    const [last, before] = await search()
    expect(last!.seq).toBe(before!.seq + 1)
    expect(await verify()).toMatchObject({ whole: true, problems: [] })
  })
})

describe('verifying the record', () => {
  beforeEach(async () => {
    await makeTestSetting(test.office)
  })

  it('finds it whole', async () => {
    const entries = (await search('limit=500')).length
    expect(await verify()).toMatchObject({ whole: true, entries, problems: [] })
  })

  it('finds a changed entry and says which', async () => {
    await tamper("UPDATE record_entry SET account_name = 'somebody else' WHERE seq = 5")
    expect(await verify()).toMatchObject({
      whole: false,
      problems: [{ seq: 5, detail: 'Entry 5 was changed after it was written.' }],
    })
  })

  it('finds a changed entry whose hash was made to fit, at the one after it', async () => {
    await tamper(
      "UPDATE record_entry SET reason = 'never' WHERE seq = 5; UPDATE record_entry e SET hash = record_entry_hash(e) WHERE seq = 5",
    )
    const { whole, problems } = await verify()
    expect(whole).toBe(false)
    expect(problems.map(({ seq }) => seq)).toEqual([6])
  })

  it('finds a salt or an address that was changed, and a number in what an entry says', async () => {
    for (const [column, value] of [
      ['who_salt', "'\\x00'"],
      ['what_salt', "'\\x00'"],
      ['address', "'203.0.113.9'"],
      ['"after"', `'{"x": 1}'`],
    ]) {
      await tamper(`CREATE TEMP TABLE kept AS SELECT * FROM record_entry WHERE seq = 5`)
      await tamper(`UPDATE record_entry SET ${column} = ${value} WHERE seq = 5`)
      expect((await verify()).problems, column).toMatchObject([{ seq: 5 }])
      await tamper(`UPDATE record_entry e SET who_salt = k.who_salt, what_salt = k.what_salt, address = k.address,
        "after" = k."after" FROM kept k WHERE e.seq = 5`)
      await tamper('DROP TABLE kept')
    }
    expect(await verify()).toMatchObject({ whole: true })
  })

  it('finds an entry that was emptied and that no removal lists, or that was filled again', async () => {
    await tamper(`UPDATE record_entry e SET what_digest = record_what_digest(e), what_salt = NULL, before = NULL,
      "after" = NULL, reason = NULL WHERE seq = 5`)
    const empty = [{ seq: 5, detail: 'Entry 5 was emptied, and no removal of a soldier says so.' }]
    expect((await verify()).problems).toEqual(empty)
    await test.sql(`INSERT INTO record_entry (at, action, subject_kind, "after")
      VALUES (now(), 'soldier.removed', 'soldier', '{"emptied": {"who": [[5, 5]], "what": [[4, 4], [6, 7]]}}')`)
    expect((await verify()).problems).toEqual(empty)
    await test.sql(`INSERT INTO record_entry (at, action, subject_kind, "after")
      VALUES (now(), 'soldier.removed', 'soldier', '{"emptied": {"who": [], "what": [[1, 9999]]}}')`)
    expect(await verify()).toMatchObject({ whole: true, problems: [] })
    await tamper(`UPDATE record_entry SET reason = 'put in' WHERE seq = 6`)
    expect((await verify()).problems).toMatchObject([{ seq: 6, detail: 'Entry 6 was changed after it was written.' }])
  })

  it('shows an emptied entry as such, and finds a removal that was bent to list more', async () => {
    await test.sql(`INSERT INTO record_entry (at, action, subject_kind, "after")
      VALUES (now(), 'soldier.removed', 'soldier', '{"emptied": {"who": [[3, 4]], "what": [[4, 4]]}}')`)
    const items = await search('limit=500')
    const entry = (seq: number) => items.find((item) => item.seq === seq)!
    expect(entry(3)).toMatchObject({ emptied: ['who'], accountName: null, address: null, after: expect.anything() })
    expect(entry(4)).toMatchObject({ emptied: ['who', 'what'], before: null, after: null, reason: null })
    expect(entry(5)).toMatchObject({ emptied: [], accountName: 'office' })
    await tamper(`UPDATE record_entry SET "after" = jsonb_set("after", '{emptied,who}', '[[1, 9]]')
      WHERE action = 'soldier.removed'`)
    const last = items[0]!.seq
    expect((await verify()).problems).toEqual([
      { seq: last, detail: `Entry ${last} was changed after it was written.` },
    ])
  })

  it('finds missing entries in the middle', async () => {
    await tamper('DELETE FROM record_entry WHERE seq IN (3, 4)')
    expect((await verify()).problems).toEqual([{ seq: 5, detail: 'Entries 3 to 4 are missing.' }])
  })

  it('finds the last entry missing', async () => {
    const last = (await search())[0]!.seq
    await tamper(`DELETE FROM record_entry WHERE seq = ${last}`)
    expect((await verify()).problems).toEqual([{ seq: last, detail: `Entry ${last} is missing.` }])
  })

  it('finds an entry that was put in', async () => {
    await tamper(`
      UPDATE record_entry SET seq = seq + 1000000 WHERE seq >= 4;
      INSERT INTO record_entry (seq, at, action, subject_kind, who_salt, what_salt, previous_hash, hash)
        SELECT 4, at, 'sheet.decided', 'sheet', record_salt(), record_salt(), hash, '\\x00' FROM record_entry WHERE seq = 3;
      UPDATE record_entry e SET hash = record_entry_hash(e) WHERE seq = 4;
      UPDATE record_entry SET seq = seq - 999999 WHERE seq > 1000000`)
    const { whole, problems } = await verify()
    expect(whole).toBe(false)
    expect(problems[0]!.seq).toBe(5)
  })
})
