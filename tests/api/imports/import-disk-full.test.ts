import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { isOutOfSpace } from '../../../server/db/database-errors.ts'
import { receiveFile } from '../../../server/files/receive-file.ts'
import { buildTestApp, type TestApp } from '../../support/build-test-app.ts'
import { countRows } from '../../support/count-rows.ts'
import { type Importer, makeImporter } from '../../support/import-file.ts'

const ROSTER =
  'Roster number,Family name,Given name,Grade,Unit,From\nD1,Vale,Kim,SGT,Calloway Point,2024-01-01\nD2,Orr,Lou,SGT,Calloway Point,2024-01-01\n'

let test: TestApp
let importer: Importer
beforeAll(async () => {
  test = await buildTestApp()
  importer = await makeImporter(test)
})
afterAll(() => test.close())

/** Lets PostgreSQL say of the next row of a table what it says when its disk is full (53100, disk_full). */
async function fillDiskAt(table: string, column: string, value: string): Promise<void> {
  await test.sql(`CREATE FUNCTION no_room() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
    RAISE EXCEPTION 'could not extend file: No space left on device' USING ERRCODE = 'disk_full'; END $$`)
  await test.sql(
    `CREATE TRIGGER no_room BEFORE INSERT ON ${table} FOR EACH ROW WHEN (NEW.${column} = '${value}') EXECUTE FUNCTION no_room()`,
  )
}
const makeRoom = (table: string) => test.sql(`DROP TRIGGER no_room ON ${table}; DROP FUNCTION no_room()`)

describe('a full disk', () => {
  it('in the middle of storing is said clearly, and nothing of the file stays', async () => {
    const checked = await importer.check(await importer.send(ROSTER))
    expect(checked.state).toBe('checked')
    const before = await countRows(test)
    await fillDiskAt('record_entry', 'action', 'soldier.created')
    const failed = await importer.store(checked)
    expect(failed).toMatchObject({
      state: 'failed',
      problem: expect.stringContaining('The disk of the server is full. Nothing was stored'),
    })
    expect(await countRows(test)).toEqual(before)
    await makeRoom('record_entry')
    expect(await importer.store(await importer.check(checked))).toMatchObject({ state: 'stored' })
  })

  it('while the file is read is said clearly, and nothing of it is left', async () => {
    await fillDiskAt('import_row', 'number', '3')
    expect(await importer.refused(ROSTER)).toMatch(/^503 urn:reviewstand:problem:disk-full .*Nothing was stored/)
    await makeRoom('import_row')
    expect(await test.sql("SELECT 1 FROM import_job WHERE state = 'read'")).toEqual([])
  })

  it('where the file is received is said clearly', async () => {
    async function* full(): AsyncGenerator<Buffer> {
      yield Buffer.from('a')
      throw Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' })
    }
    await expect(
      receiveFile(full(), { mostBytes: 1000, signal: new AbortController().signal }, async () => 'read'),
    ).rejects.toMatchObject({ rule: 'disk-full' })
  })

  it('is nothing else', () => expect(isOutOfSpace(new Error('No space left on device'))).toBe(false))
})
