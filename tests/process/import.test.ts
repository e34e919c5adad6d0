import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import pg from 'pg'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { insertAccount } from '../../server/accounts/db/accounts.db.ts'
import { closeDatabase, openDatabase } from '../../server/db/client.ts'
import { createTestDatabase, type TestDatabase } from '../support/test-database.ts'

const PROJECT = path.resolve(import.meta.dirname, '../..')
const HEADER = 'Roster number,Family name,Given name,Grade,Unit,From'
const TREE = 'Calloway Point Ceremonial Battalion / A Company'

let folder: string
let database: TestDatabase
let client: pg.Client
const children = new Set<ChildProcess>()
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-import-test-'))
})
beforeEach(async () => {
  database = await createTestDatabase()
  const db = openDatabase(database.url)
  const account = { passwordHash: null, roles: ['office'], soldierId: null, unitId: null, createdAt: new Date() }
  await insertAccount(db, { name: 'office', ...account })
  await closeDatabase(db)
  client = new pg.Client({ connectionString: database.url })
  await client.connect()
  // So that nothing is asked about it.
  await client.query("INSERT INTO grade (code, name, officer, place, confirmed) VALUES ('SGT', '', false, 1, true)")
  return async () => {
    await client.end()
    await database.close()
  }
})
afterAll(() => {
  for (const child of children) child.kill('SIGKILL')
  fs.rmSync(folder, { recursive: true })
})

function command(...parameters: string[]) {
  const child = spawn(process.execPath, ['--import', 'tsx', 'server/import.ts', ...parameters], {
    cwd: PROJECT,
    env: { DATABASE_URL: database.url },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  children.add(child)
  let said = ''
  for (const stream of [child.stdout, child.stderr]) stream.setEncoding('utf8').on('data', (text) => (said += text))
  return { child, ended: once(child, 'close').then(([code]) => ({ code: code as number | null, said })) }
}

const write = (name: string, rows: readonly string[]): string => {
  const file = path.join(folder, name)
  fs.writeFileSync(file, [HEADER, ...rows].join('\n'))
  return file
}
const soldier = (number: number) => `N${number},Ashford,No. ${number},SGT,${TREE},2024-01-01`
const count = async (table: string) => Number((await client.query(`SELECT count(*) FROM ${table}`)).rows[0].count)

describe('npm run import', () => {
  it('says what would become of a file, stores it, and leaves refused rows out only where told', async () => {
    const file = write('people.csv', [soldier(1), soldier(2), `N3,,,SGT,${TREE},2024-01-01`])
    const dry = await command(file, '--dry-run').ended
    expect(dry).toMatchObject({
      code: 3,
      said: expect.stringContaining(
        'people.csv (roster): adds 2, changes 0, 0 are there already, 0 are held, 1 are refused.',
      ),
    })
    expect(dry.said).toContain('row 4: Somebody new needs a family name')
    const refused = await command(file).ended
    expect(refused).toMatchObject({ code: 3, said: expect.stringContaining('Nothing was stored. Mend') })
    expect(await count('soldier')).toBe(0)
    const stored = await command(file, '--leave-out-refused').ended
    expect(stored).toMatchObject({ code: 3, said: expect.stringContaining('people.csv is stored.') })
    expect(await count('soldier')).toBe(2)
    const mended = path.join(folder, 'people - refused.csv')
    fs.writeFileSync(mended, fs.readFileSync(mended, 'utf8').replace('N3,,', 'N3,Vale,Kim'))
    expect(await command(mended).ended).toMatchObject({ code: 0 })
    expect(await count('soldier')).toBe(3)
    expect(await count('import_row')).toBe(0)
  })

  it('says in a sentence what is wrong with how it is called', async () => {
    expect(await command('/nowhere/at-all.csv').ended).toMatchObject({
      code: 1,
      said: expect.stringContaining('There is no file'),
    })
    expect(await command(write('x.csv', [soldier(1)]), '--as', 'nobody').ended).toMatchObject({
      code: 1,
      said: expect.stringContaining('There is no account "nobody"'),
    })
    expect(await command(write('x.csv', [soldier(1)]), '--kind', 'shoes').ended).toMatchObject({
      code: 3,
      said: expect.stringContaining('There is no kind "shoes"'),
    })
    expect(await command().ended).toMatchObject({ code: 1, said: expect.stringContaining('--dry-run') })
  })

  it('leaves the former state when it is killed in the middle', async () => {
    const file = write(
      'many.csv',
      Array.from({ length: 20_000 }, (_, index) => soldier(index)),
    )
    const { child, ended } = command(file)
    const busy = async () =>
      (
        await client.query(
          "SELECT 1 FROM import_job WHERE state = 'storing' AND stage IN ('soldiers', 'recording') AND done > 0",
        )
      ).rowCount
    while (child.exitCode === null && !(await busy())) await setTimeout(5)
    expect(child.exitCode).toBeNull()
    child.kill('SIGKILL')
    expect((await ended).code).toBeNull()
    for (const table of ['soldier', 'soldier_change', 'soldier_period', 'unit', 'record_entry'])
      expect(await count(table), table).toBe(0)
    expect(await command(file).ended).toMatchObject({ code: 0 })
    expect(await count('soldier')).toBe(20_000)
    expect(await count('record_entry')).toBe(20_000 + 2 + 1)
  })
})
