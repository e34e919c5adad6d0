import { spawn } from 'node:child_process'
import { once } from 'node:events'
import fs from 'node:fs'
import fsPromises from 'node:fs/promises'
import os from 'node:os'
import path from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openBackups } from '../../server/archive/backup-keeper.ts'
import { checkArchive } from '../../server/archive/check-archive.ts'
import { openSchedule } from '../../server/config/schedule.ts'
import type { Backups } from '../../server/context/backups.ts'
import { connected } from '../support/content-of.ts'
import { createTestDatabase, type TestDatabase } from '../support/test-database.ts'

type Options = Parameters<typeof openBackups>[0]

let database: TestDatabase
let parent: string
beforeAll(async () => {
  parent = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-backups-'))
  database = await createTestDatabase()
})
afterAll(async () => {
  await database?.close()
  fs.rmSync(parent, { recursive: true })
})

let made = 0
const newFolder = () => path.join(parent, String(made++))

const at = (second: number) => new Date(Date.UTC(2026, 5, 15, 2, 30, second))

function open(given: Partial<Options> & { folder: string }) {
  const clock = { now: at(0) }
  const problems: unknown[] = []
  const backups = openBackups({
    url: database.url,
    at: null,
    timeZone: 'UTC',
    keep: 14,
    clock: () => clock.now,
    onProblem: (error) => problems.push(error),
    ...given,
  })
  return { backups, clock, problems }
}

async function madeOne(backups: Backups): Promise<void> {
  expect(await backups.begin()).toBe(true)
  await expect.poll(async () => (await backups.state()).running, { timeout: 60_000 }).toBeNull()
}

describe('the backups of a server', () => {
  it('are whole, listed with the latest first, and only for their owner to read', async () => {
    const folder = newFolder()
    const { backups: opening, clock } = open({ folder })
    const backups = await opening
    await madeOne(backups)
    clock.now = at(1)
    await madeOne(backups)
    fs.writeFileSync(path.join(folder, 'notes.txt'), 'mine')
    const files = await backups.list()
    expect(files.map(({ name }) => name)).toEqual([
      'reviewstand-2026-06-15T02-30-01Z.tar.gz',
      'reviewstand-2026-06-15T02-30-00Z.tar.gz',
    ])
    const file = path.join(folder, files[0]!.name)
    expect((await checkArchive(file)).tables.length).toBeGreaterThan(40)
    expect(fs.statSync(file).mode & 0o777).toBe(0o600)
    expect(files[0]!.bytes).toBe(fs.statSync(file).size)
    const { bytes, content } = (await backups.open(files[0]!.name))!
    let read = 0
    for await (const part of content) read += part.length
    expect(read).toBe(bytes)
    for (const name of ['notes.txt', '../database', 'reviewstand-2026-06-15T02-30-09Z.tar.gz']) {
      expect(await backups.open(name)).toBeNull()
    }
    await backups.close()
  })

  it('are made one at a time, whichever process is asked', async () => {
    const folder = newFolder()
    const one = await open({ folder }).backups
    const other = await open({ folder }).backups
    const begun = await Promise.all([one.begin(), other.begin(), one.begin()])
    expect(begun.filter(Boolean)).toHaveLength(1)
    await expect.poll(async () => (await one.state()).running, { timeout: 60_000 }).toBeNull()
    expect(await one.list()).toHaveLength(1)
    await Promise.all([one.close(), other.close()])
  })

  it('fail on a full disk with a clear message that outlives the server; those before stay', async () => {
    const folder = newFolder()
    const first = await open({ folder }).backups
    await madeOne(first)
    await first.close()
    const before = fs.readFileSync(path.join(folder, fs.readdirSync(folder)[0]!))
    const runsFull: typeof fsPromises.open = async (...given) => {
      const handle = await fsPromises.open(...given)
      handle.appendFile = async () => {
        throw Object.assign(new Error('ENOSPC: no space left on device, write'), { code: 'ENOSPC' })
      }
      return handle
    }
    const { backups: opening, clock, problems } = open({ folder, open: runsFull })
    clock.now = at(5)
    const full = await opening
    await madeOne(full)
    expect(problems).toHaveLength(1)
    await full.close()
    const again = await open({ folder }).backups
    expect((await again.state()).lastFailure).toEqual({
      at: at(5),
      problem: expect.stringMatching(/^There is no room left in .* No backup was made, and no part of one is left\./),
    })
    expect(fs.readdirSync(folder)).toHaveLength(1)
    expect(fs.readFileSync(path.join(folder, fs.readdirSync(folder)[0]!))).toEqual(before)
    await again.close()
  })

  it('fail on a disk that runs full after a while, and nothing but the backup fails', async () => {
    const folder = newFolder()
    const client = await connected(database.url)
    await client.query(`INSERT INTO soldier (roster_number, family_name, given_name)
      SELECT 'R' || n, md5(n::text), md5((n + 1)::text) FROM generate_series(1, 20000) n;
      INSERT INTO absence (soldier_id, from_day, kind) SELECT id, '2026-01-01', 'leave' FROM soldier`)
    let room = 0
    let taken = 0
    const runsFull: typeof fsPromises.open = async (...given) => {
      const handle = await fsPromises.open(...given)
      const append = handle.appendFile.bind(handle)
      handle.appendFile = async (part) => {
        taken += (part as Buffer).length
        await setTimeout(5) // As a disk does, so that what comes before it waits.
        if (taken > room) throw Object.assign(new Error('ENOSPC: no space left on device'), { code: 'ENOSPC' })
        await append(part)
      }
      return handle
    }
    // Vitest fails on any error that nobody takes.
    const { backups: opening, problems } = open({ folder, open: runsFull })
    const backups = await opening
    for (room = 300_000; room <= 700_000; room += 100_000) {
      taken = 0
      await madeOne(backups)
      expect(taken).toBeGreaterThan(room)
    }
    expect(problems).toHaveLength(5)
    expect(fs.readdirSync(folder)).toEqual([])
    await client.query('DELETE FROM absence; DELETE FROM soldier')
    await client.end()
    await backups.close()
  })

  it('fail where the folder is no folder, and say so', async () => {
    const folder = newFolder()
    fs.writeFileSync(folder, '')
    const { backups: opening, clock } = open({ folder })
    clock.now = at(6)
    const backups = await opening
    expect(await backups.begin()).toBe(true)
    await expect
      .poll(async () => (await backups.state()).lastFailure, { timeout: 60_000 })
      .toEqual({ at: at(6), problem: expect.stringMatching(/^The folder of backups .* can't be made \(EEXIST\)/) })
    await backups.close()
  })

  it('leave nothing half done when the server is killed: the next start tidies up and tells of it', async () => {
    const folder = newFolder()
    const script = `
      const { openBackups } = await import('./server/archive/backup-keeper.ts')
      const fs = await import('node:fs/promises')
      const backups = await openBackups({ url: process.argv[1], folder: process.argv[2], at: null, timeZone: 'UTC', keep: 14,
        clock: () => new Date('2026-06-15T02:31:00Z'), onProblem: console.error,
        open: async (...given) => {
          const handle = await fs.open(...given)
          const { appendFile } = handle
          handle.appendFile = async (part) => {
            await appendFile.call(handle, part)
            process.kill(process.pid, 'SIGKILL')
          }
          return handle
        } })
      await backups.begin()`
    const child = spawn(
      process.execPath,
      ['--import', 'tsx', '--input-type=module', '-e', script, database.url, folder],
      { stdio: 'inherit' },
    )
    const [, signal] = await once(child, 'close')
    expect(signal).toBe('SIGKILL')
    expect(fs.readdirSync(folder)).toEqual([expect.stringMatching(/^reviewstand-.*\.\d+\.unfinished$/)])
    const strange = path.join(folder, 'other.1.unfinished')
    fs.writeFileSync(strange, 'not ours')
    // PostgreSQL may need a moment to see that the killed one is gone.
    let backups = await open({ folder, clock: () => at(30) }).backups
    while (fs.readdirSync(folder).length > 1) {
      await backups.close()
      await setTimeout(100)
      backups = await open({ folder, clock: () => at(30) }).backups
    }
    expect(fs.readdirSync(folder)).toEqual(['other.1.unfinished'])
    expect((await backups.state()).lastFailure?.problem).toMatch(/^The server ended while it was being written/)
    expect((await backups.state()).running).toBeNull()
    await madeOne(backups)
    await backups.close()
  })

  it('beyond the number kept are deleted after a good scheduled one, and only ours', async () => {
    const folder = newFolder()
    const { backups: opening, clock } = open({ folder, at: '* * * * *', keep: 2 })
    const backups = await opening
    for (let second = 0; second < 4; second++) {
      clock.now = at(second)
      await madeOne(backups)
    }
    expect(await backups.list()).toHaveLength(4)
    fs.writeFileSync(path.join(folder, 'reviewstand-old.tar.gz'), 'mine')
    clock.now = new Date()
    await expect.poll(async () => (await backups.list()).length, { timeout: 120_000, interval: 1000 }).toBe(2)
    const [latest, second] = await backups.list()
    expect(latest!.takenAt.getTime()).toBeGreaterThan(at(3).getTime())
    expect(second!.takenAt).toEqual(at(3))
    expect(fs.existsSync(path.join(folder, 'reviewstand-old.tar.gz'))).toBe(true)
    await backups.close()
  })
})

describe('the schedule', () => {
  it('goes by the wall clock of its zone, over the change of the clocks', () => {
    const schedule = openSchedule('30 2 * * *', 'Europe/Berlin', () => {})
    // On 25 October 2026 the clocks there go back from 03:00 to 02:00 (directive 2000/84/EC).
    expect(schedule.nextAfter(new Date('2026-10-23T12:00:00Z'))).toEqual(new Date('2026-10-24T00:30:00Z'))
    expect(schedule.nextAfter(new Date('2026-10-25T12:00:00Z'))).toEqual(new Date('2026-10-26T01:30:00Z'))
    expect(schedule.lastUpTo(new Date('2026-06-15T00:30:00Z'), 2)).toEqual([
      new Date('2026-06-15T00:30:00Z'),
      new Date('2026-06-14T00:30:00Z'),
    ])
    schedule.stop()
  })
})
