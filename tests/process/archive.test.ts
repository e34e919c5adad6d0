import { spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import fsPromises from 'node:fs/promises'
import os from 'node:os'
import path from 'node:path'
import { gunzipSync, gzipSync } from 'node:zlib'
import type pg from 'pg'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { checkArchive } from '../../server/archive/check-archive.ts'
import { restoreArchive } from '../../server/archive/restore-archive.ts'
import { saveArchive } from '../../server/archive/save-archive.ts'
import { migrate } from '../../server/process/start/migrate.ts'
import { connected, contentOf } from '../support/content-of.ts'
import { createEmptyDatabase, createTestDatabase, type TestDatabase } from '../support/test-database.ts'

const OPTIONS = { timeZone: 'UTC', product: '0.1.0' }

describe('an archive', () => {
  let folder: string
  let file: string
  let source: TestDatabase
  let client: pg.Client
  let target: TestDatabase

  beforeAll(async () => {
    folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-archive-'))
    file = path.join(folder, 'all.tar.gz')
    source = await createTestDatabase()
    client = await connected(source.url)
    await client.query(`
      INSERT INTO unit (name, kind) VALUES ('Guard', 'unit');
      INSERT INTO unit (name, kind, parent_id) SELECT E'A "quoted"\\n\\\\line', 'company', id FROM unit;
      INSERT INTO soldier (roster_number, family_name, given_name)
        SELECT 'R' || n, 'Ashford', 'Ünï ' || n FROM generate_series(1, 3000) n;
      INSERT INTO account (name, password_hash, roles, created_at) VALUES ('office', 'hash', '{office}', now());
      INSERT INTO session (token_hash, account_id, created_at, seen_at, network, device)
        SELECT 'secret', id, now(), now(), '', '' FROM account;
      INSERT INTO record_entry (at, action, subject_kind, after)
        SELECT now(), 'x', 'y', jsonb_build_object('b', n, 'a', 'é', 'n', 0.10) FROM generate_series(1, 5) n`)
    await saveArchive(client, file, OPTIONS)
  })
  afterAll(async () => {
    await client.end()
    await source.close()
    fs.rmSync(folder, { recursive: true })
  })
  beforeEach(async () => {
    target = await createEmptyDatabase()
  })
  afterEach(() => target.close())

  it('holds everything but keys that let somebody in, for its owner alone', async () => {
    const { tables, files } = await checkArchive(file)
    expect(tables.find(({ table }) => table === 'soldier')?.rows).toBe(3000)
    // Both are sealed with a key that is in no archive.
    const secret = tables.filter(({ columns }) => columns.some((name) => /token|secret/.test(name)))
    expect(secret.map(({ table }) => table)).toEqual(['authenticator_app', 'sign_on_provider'])
    expect(tables.map(({ table }) => table)).not.toContain('session')
    expect(files[0]?.name).toBe('archive.json')
    expect(fs.statSync(file).mode & 0o777).toBe(0o600)
    expect(fs.readdirSync(folder)).toEqual(['all.tar.gz'])
  })

  it('is restored row by row as it was, and new rows are numbered on', async () => {
    await restoreArchive(target.url, file)
    expect(await contentOf(target.url)).toEqual({ ...(await contentOf(source.url)), session: [] })
    const restored = await connected(target.url)
    await restored.query(`INSERT INTO record_entry (at, action, subject_kind) VALUES (now(), 'x', 'y')`)
    const { rows } = await restored.query('SELECT max(seq)::int AS seq FROM record_entry')
    expect(rows).toEqual([{ seq: 6 }])
    await expect(restored.query('UPDATE record_entry SET action = action')).rejects.toThrow(/never changed|denied/)
    const { rows: sleeping } = await restored.query(`SELECT 1 FROM pg_trigger WHERE tgenabled <> 'O'`)
    expect(sleeping).toEqual([])
    await restored.end()
    expect(await migrate(target.url)).toEqual([])
  })

  it('is restored into the bare tables of a server that was started and not used', async () => {
    await migrate(target.url)
    await restoreArchive(target.url, file)
    expect((await contentOf(target.url)).soldier).toHaveLength(3000)
  })

  it('is not restored over anything', async () => {
    await restoreArchive(target.url, file)
    const before = await contentOf(target.url)
    await expect(restoreArchive(target.url, file)).rejects.toThrow('The database is not empty')
    expect(await contentOf(target.url)).toEqual(before)
  })

  it('is not restored beside tables of others', async () => {
    const other = await connected(target.url)
    await other.query('CREATE TABLE theirs (id int)')
    await other.end()
    await expect(restoreArchive(target.url, file)).rejects.toThrow('tables that are not of Reviewstand')
    expect(Object.keys(await contentOf(target.url))).toEqual(['theirs'])
  })

  it('takes what is there at one moment, whatever is entered meanwhile', async () => {
    const second = path.join(folder, 'meanwhile.tar.gz')
    const writer = await connected(source.url)
    let written: Promise<unknown> | undefined
    const { tables } = await saveArchive(client, second, {
      ...OPTIONS,
      onProgress: () => {
        written ??= writer.query(`INSERT INTO unit (name, kind) VALUES ('Late', 'unit')`)
      },
    })
    await written
    expect(tables.find(({ table }) => table === 'unit')?.rows).toBe(2)
    await writer.query(`DELETE FROM unit WHERE name = 'Late'`)
    await writer.end()
    fs.rmSync(second)
  })

  describe('that is not whole', () => {
    const spoilt = (name: string, content: Buffer): string => {
      const spoiltFile = path.join(folder, name)
      fs.writeFileSync(spoiltFile, content)
      return spoiltFile
    }
    const inside = (from: string, to: string): Buffer => {
      const content = gunzipSync(fs.readFileSync(file)).toString('latin1')
      expect(content).toContain(from)
      expect(from).toHaveLength(to.length)
      return gzipSync(Buffer.from(content.replace(from, to), 'latin1'))
    }
    const whole = () => fs.readFileSync(file)

    it.each([
      ['is cut off', () => whole().subarray(0, -200), /no whole archive/],
      ['is cut off between two files', () => gzipSync(firstFileOf(gunzipSync(whole()))), /its end is missing/],
      ['was flipped in one bit', () => flipped(whole()), /no whole archive|damaged/],
      ['had a name changed in it', () => inside('"Ashford"', '"Oshford"'), /soldier\S+ was changed after/],
      ['had its manifest changed', () => inside('"rows": 3000', '"rows": 3001'), /damaged or was tampered/],
      ['is something else', () => Buffer.from('Ashford;Sword\n'), /no whole archive/],
      ['is empty', () => Buffer.alloc(0), /no whole archive|its end is missing/],
      [
        'is of a newer format',
        () => inside('"formatVersion": 1', '"formatVersion": 2'),
        /made by a newer Reviewstand \(0\.1\.0; archive format 2/,
      ],
    ])('%s: is refused, and nothing is written', async (_, make, message) => {
      const spoiltFile = spoilt('spoilt.tar.gz', make())
      await expect(restoreArchive(target.url, spoiltFile)).rejects.toThrow(message)
      expect(await contentOf(target.url)).toEqual({})
      fs.rmSync(spoiltFile)
    })

    it('is refused when a later version made its schema', async () => {
      const migrations = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-migrations-'))
      const ours = path.resolve('prisma/migrations')
      for (const name of fs.readdirSync(ours).sort().slice(0, 8)) {
        fs.cpSync(path.join(ours, name), path.join(migrations, name), { recursive: true })
      }
      await expect(restoreArchive(target.url, file, { folder: migrations })).rejects.toThrow(
        /newer or another Reviewstand/,
      )
      fs.rmSync(migrations, { recursive: true })
    })
  })

  it('leaves the database empty when the restore is killed in its middle', async () => {
    const script = `
      const { restoreArchive } = await import('./server/archive/restore-archive.ts')
      await restoreArchive(process.argv[1], process.argv[2], {
        onProgress: () => { console.log('loading'); process.kill(process.pid, 'SIGKILL') },
      })`
    const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', script, target.url, file], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    let said = ''
    child.stdout.on('data', (part: Buffer) => {
      said += part.toString()
    })
    const [, signal] = await once(child, 'close')
    expect(said).toBe('loading\n')
    expect(signal).toBe('SIGKILL')
    await expect.poll(() => contentOf(target.url), { timeout: 60_000 }).toEqual({})
    await restoreArchive(target.url, file)
  })

  it('is not made where there is no room: a clear message, and no part of it is left', async () => {
    const full = path.join(folder, 'full', 'all.tar.gz')
    fs.mkdirSync(path.dirname(full))
    const open: typeof fsPromises.open = async (...given) => {
      const handle = await fsPromises.open(...given)
      handle.appendFile = fullAfter(2000)
      return handle
    }
    await expect(saveArchive(client, full, { ...OPTIONS, open })).rejects.toThrow(
      /^There is no room left in .*\/full\. No backup was made, and no part of one is left\./,
    )
    expect(fs.readdirSync(path.dirname(full))).toEqual([])
    expect((await client.query('SELECT 1 AS one')).rows).toEqual([{ one: 1 }])
  })

  it('is not made over another file, nor in a folder that is not there', async () => {
    await expect(saveArchive(client, file, OPTIONS)).rejects.toThrow('is there already')
    await expect(saveArchive(client, path.join(folder, 'none', 'a'), OPTIONS)).rejects.toThrow(
      "can't be written (ENOENT)",
    )
  })
})

/** Takes so many bytes, and then says what a full disk says. */
function fullAfter(bytes: number): fsPromises.FileHandle['appendFile'] {
  let taken = 0
  return async (part) => {
    taken += (part as Buffer).length
    if (taken > bytes) throw Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' })
  }
}

/** Header of 512 bytes, with the size in octal at place 124; then the content, filled up to whole blocks of 512. */
function firstFileOf(tar: Buffer): Buffer {
  const size = Number.parseInt(tar.toString('latin1', 124, 135), 8)
  return tar.subarray(0, 512 + Math.ceil(size / 512) * 512)
}

function flipped(content: Buffer): Buffer {
  const copy = Buffer.from(content)
  copy[Math.floor(copy.length / 2)]! ^= 1
  return copy
}
