import pg from 'pg'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { applyInTransaction, historyTable, ourMigrations } from '../../../server/process/start/migrate.ts'
import { readMigrations } from '../../../server/process/start/migration-files.ts'
import { createEmptyDatabase, type TestDatabase } from '../../support/test-database.ts'

const CHAINS_ANEW = '20261125142000_record_that_can_forget'

let target: TestDatabase
let database: pg.Client
beforeEach(async () => {
  target = await createEmptyDatabase()
  database = new pg.Client({ connectionString: target.url })
  await database.connect()
  await database.query(historyTable)
  for (const migration of readMigrations(ourMigrations)) {
    if (migration.name < CHAINS_ANEW) await applyInTransaction(database, migration)
  }
})
afterEach(async () => {
  await database.end()
  await target.close()
})

async function upgrade(): Promise<void> {
  for (const migration of readMigrations(ourMigrations)) {
    if (migration.name >= CHAINS_ANEW) await applyInTransaction(database, migration)
  }
}

const enter = (count: number) =>
  database.query(`INSERT INTO record_entry (at, account_name, action, subject_kind, "after", reason)
    SELECT now(), 'office', 'test.entry', 'test', jsonb_build_object('n', n), 'because' FROM generate_series(1, ${count}) n`)
const breaks = async () =>
  (await database.query('SELECT seq::int, changed, unlinked, missing::int FROM record_breaks()')).rows

describe('a record of before entries could be emptied', () => {
  it('is chained anew whole, says so with its former end, and goes on', async () => {
    await enter(5)
    const { rows: before } = await database.query(`SELECT encode(hash, 'hex') AS hash FROM record_head`)
    await upgrade()
    await enter(2)
    expect(await breaks()).toEqual([])
    const { rows } = await database.query('SELECT action, "after", reason FROM record_entry WHERE seq = 6')
    expect(rows).toMatchObject([
      { action: 'record.chained-anew', after: { formerEntries: 5, formerLastHash: before[0].hash } },
    ])
    const { rows: kept } = await database.query('SELECT "after", reason, account_name FROM record_entry WHERE seq = 3')
    expect(kept).toEqual([{ after: { n: 3 }, reason: 'because', account_name: 'office' }])
  })

  it('stays broken where it was changed, cut out or put in', async () => {
    await enter(9)
    await database.query(`GRANT UPDATE, DELETE ON record_entry TO CURRENT_USER;
      ALTER TABLE record_entry DISABLE TRIGGER USER;
      UPDATE record_entry SET reason = 'another' WHERE seq = 2;
      DELETE FROM record_entry WHERE seq = 5;
      UPDATE record_entry SET reason = 'fits' WHERE seq = 7;
      UPDATE record_entry e SET hash = record_entry_hash(e) WHERE seq = 7;
      ALTER TABLE record_entry ENABLE TRIGGER USER`)
    await upgrade()
    expect(await breaks()).toEqual([
      { seq: 2, changed: true, unlinked: false, missing: 0 },
      { seq: 6, changed: false, unlinked: true, missing: 1 },
      { seq: 8, changed: false, unlinked: true, missing: 0 },
    ])
  })

  it('of which the end was cut off shows that', async () => {
    await enter(4)
    await database.query(`GRANT DELETE ON record_entry TO CURRENT_USER; ALTER TABLE record_entry DISABLE TRIGGER USER;
      DELETE FROM record_entry WHERE seq = 4; ALTER TABLE record_entry ENABLE TRIGGER USER`)
    await upgrade()
    expect(await breaks()).toEqual([{ seq: 5, changed: false, unlinked: true, missing: 1 }])
  })

  it('without an entry gets none', async () => {
    await upgrade()
    const { rows } = await database.query('SELECT count(*)::int AS count FROM record_entry')
    expect(rows).toEqual([{ count: 0 }])
    await enter(1)
    expect(await breaks()).toEqual([])
  })
})
