import { spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from 'vitest'
import { restoreArchive } from '../../server/archive/restore-archive.ts'
import { saveArchive } from '../../server/archive/save-archive.ts'
import { connected, contentOf } from '../support/content-of.ts'
import { askDatabase, postgresOf } from '../support/postgres-of.ts'
import { createEmptyDatabase, createTestDatabase, type TestDatabase } from '../support/test-database.ts'

const SOLDIERS = 60_000

let folder: string
let file: string
let source: TestDatabase
beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-broken-off-'))
  file = path.join(folder, 'all.tar.gz')
  source = await createTestDatabase()
  const client = await connected(source.url)
  await client.query(`INSERT INTO soldier (roster_number, family_name, given_name)
    SELECT 'R' || n, 'Ashford', 'No. ' || n FROM generate_series(1, ${SOLDIERS}) n`)
  await saveArchive(client, file, { timeZone: 'UTC', product: '0.1.0' })
  await client.end()
})
afterAll(async () => {
  await source?.close()
  fs.rmSync(folder, { recursive: true })
})

describe('a restore into a data folder of its own', () => {
  const data = () => path.join(folder, 'data')
  afterEach(async () => {
    const left = postgresOf(data())
    if (left) process.kill(left.pid, 'SIGINT')
    while (postgresOf(data())) await setTimeout(100)
  })

  function restore() {
    const child = spawn(process.execPath, ['--import', 'tsx', 'server/restore.ts', file], {
      env: { PATH: process.env.PATH, HOME: process.env.HOME, REVIEWSTAND_DATA: data(), REVIEWSTAND_TIME_ZONE: 'UTC' },
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    let said = ''
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (part: Buffer) => (said += part.toString()))
    return { child, ended: once(child, 'close'), said: () => said }
  }

  it('that is killed in its middle can simply be run again: the folder holds nothing until it is whole', async () => {
    const killed = restore()
    // Its rows are seen by nobody until it commits, but the statement that writes them is.
    const isWriting = async () => {
      const rows = postgresOf(data())
        ? await askDatabase(
            data(),
            `SELECT 1 FROM pg_stat_activity WHERE state = 'active' AND query LIKE 'INSERT INTO "soldier"%'`,
          ).catch(() => [])
        : []
      return rows.length > 0
    }
    while (killed.child.exitCode === null && !(await isWriting())) await setTimeout(5)
    killed.child.kill('SIGKILL')
    expect((await killed.ended)[1]).toBe('SIGKILL')

    const again = restore()
    expect((await again.ended)[0], again.said()).toBe(0)
    expect(again.said()).toMatch(/^Restored: \d+ rows of \d+ tables/m)
    expect(postgresOf(data())).toBeNull()

    const third = restore()
    expect((await third.ended)[0]).toBe(1)
    expect(third.said()).toMatch(/The database is not empty: it holds records of Reviewstand\. Nothing was changed\./)
  })
})

describe('a restore while the disk of PostgreSQL runs full', () => {
  it('says so, leaves nothing, and goes on to its end once there is room', async () => {
    const target = await createEmptyDatabase()
    // PostgreSQL says what it says then (53100, disk_full) as the keys are put on again, all rows being loaded.
    const address = new URL(inject('testServer'))
    address.pathname = new URL(target.url).pathname
    const admin = await connected(address.href)
    await admin.query(`CREATE SCHEMA disk; GRANT USAGE ON SCHEMA disk TO PUBLIC;
      CREATE FUNCTION disk.is_full() RETURNS event_trigger LANGUAGE plpgsql AS $$
      DECLARE loaded boolean := false; BEGIN
        IF to_regclass('public.soldier') IS NOT NULL THEN
          EXECUTE 'SELECT EXISTS (SELECT FROM public.soldier)' INTO loaded;
        END IF;
        IF loaded THEN
          RAISE EXCEPTION 'could not extend file: No space left on device' USING ERRCODE = 'disk_full';
        END IF;
      END $$;
      CREATE EVENT TRIGGER disk_is_full ON ddl_command_end EXECUTE FUNCTION disk.is_full()`)
    await expect(restoreArchive(target.url, file)).rejects.toThrow(
      /^Nothing was restored, and the database is as empty as before\. PostgreSQL has no room left on its disk\. Make room/,
    )
    expect(await contentOf(target.url)).toEqual({})
    await admin.query('DROP EVENT TRIGGER disk_is_full')
    await admin.end()
    await restoreArchive(target.url, file)
    expect((await contentOf(target.url)).soldier).toHaveLength(SOLDIERS)
    await target.close()
  })
})
