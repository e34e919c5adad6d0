import fs from 'node:fs/promises'
import path from 'node:path'
import type pg from 'pg'
import { openSchedule } from '../config/schedule.ts'
import { StartProblem } from '../config/start-problem.ts'
import type { Backups } from '../context/backups.ts'
import { connectDatabase } from '../process/start/connect-database.ts'
import { archiveName, momentInName } from './archive-name.ts'
import { listBackups, removeDrafts, removeOlder } from './backup-folder.ts'
import { beginRun, endLostRuns, endRun, readRuns, tryBackupLock } from './backup-runs.ts'
import { readProductVersion } from './product-version.ts'
import { type SaveOptions, saveArchive } from './save-archive.ts'

interface Options {
  /** Of the product's database. */
  readonly url: string
  readonly folder: string
  /** A cron expression; null: only when asked. */
  readonly at: string | null
  readonly timeZone: string
  readonly keep: number
  readonly clock: () => Date
  /** Told why a scheduled backup came to nothing. */
  readonly onProblem: (error: unknown) => void
  /** How a file is opened; tests give one that runs full. */
  readonly open?: SaveOptions['open']
}

/** One that is being written by this process. */
interface Current {
  readonly since: Date
  readonly database: pg.Client
  done: number | null
  all: number | null
  ended: Promise<void>
}

/** Makes backups by schedule and when asked, one at a time over all server processes of the database. */
export async function openBackups(options: Options): Promise<Backups> {
  const { url, folder, timeZone, keep, clock } = options
  let current: Current | null = null

  /** @param due when the schedule wants it; null: somebody asked. Out: whether it began. */
  async function begin(due: Date | null): Promise<boolean> {
    const database = await connectDatabase(url)
    try {
      if (current !== null || !(await tryBackupLock(database)) || (await isMade(folder, due))) {
        await database.end()
        return false
      }
      const since = clock()
      const run = await beginRun(database, since)
      const started: Current = { since, database, done: null, all: null, ended: Promise.resolve() }
      current = started
      started.ended = write(options, started, run, due !== null).finally(() => {
        current = null
      })
      return true
    } catch (error) {
      await database.end().catch(() => {})
      throw error
    }
  }

  await clearUp(options).catch(options.onProblem)
  const schedule =
    options.at === null ? null : openSchedule(options.at, timeZone, (due) => begin(due).catch(options.onProblem))

  return {
    async state() {
      const { lastFailure, runningSince } = await withDatabase(url, readRuns)
      const now = clock()
      return {
        schedule: schedule && {
          at: options.at!,
          timeZone,
          next: schedule.nextAfter(now),
          lastDue: schedule.lastUpTo(now, 2),
        },
        folder,
        keep,
        lastFailure,
        running: current ?? (runningSince && { since: runningSince, done: null, all: null }),
      }
    },
    list: () => listBackups(folder),
    begin: () => begin(null),
    open: (name) => openArchive(folder, name),
    async close() {
      schedule?.stop()
      const ending = current
      await ending?.database.end().catch(() => {})
      await ending?.ended
    },
  }
}

/** Writes the archive of a run that began; what goes wrong is kept with the run and told. */
async function write(options: Options, started: Current, run: string, isScheduled: boolean): Promise<void> {
  const { url, folder, timeZone, keep, clock } = options
  let problem: string | null = null
  try {
    await makeFolder(folder)
    await removeDrafts(folder)
    await saveArchive(started.database, path.join(folder, archiveName(started.since)), {
      timeZone,
      product: readProductVersion(),
      ...(options.open && { open: options.open }),
      onProgress: (done, all) => Object.assign(started, { done, all }),
    })
    if (isScheduled) await removeOlder(folder, keep)
  } catch (error) {
    problem = error instanceof Error ? error.message : String(error)
    options.onProblem(error)
  }
  // The connection may be what broke; the lock goes with it.
  await endRun(started.database, run, clock(), problem)
    .catch(() => withDatabase(url, (database) => endRun(database, run, clock(), problem)))
    .catch(options.onProblem)
  await started.database.end().catch(() => {})
}

/** Ends the runs of processes that are gone, and removes what they left; not while another one makes a backup. */
async function clearUp({ url, folder, clock }: Options): Promise<void> {
  await withDatabase(url, async (database) => {
    if (!(await tryBackupLock(database))) return
    await endLostRuns(database, clock())
    await removeDrafts(folder)
  })
}

/** The archive of that name; null: there is none. */
async function openArchive(folder: string, name: string): ReturnType<Backups['open']> {
  if (momentInName(name) === null) return null
  const handle = await fs.open(path.join(folder, name), 'r').catch(() => null)
  if (handle === null) return null
  return { bytes: (await handle.stat()).size, content: handle.createReadStream() }
}

/** Whether another server process has made what the schedule wants. */
async function isMade(folder: string, due: Date | null): Promise<boolean> {
  const [latest] = due === null ? [] : await listBackups(folder)
  return latest !== undefined && due !== null && latest.takenAt >= due
}

async function makeFolder(folder: string): Promise<void> {
  try {
    await fs.mkdir(folder, { recursive: true, mode: 0o700 })
  } catch (cause) {
    throw new StartProblem(
      `The folder of backups ${folder} can't be made (${(cause as NodeJS.ErrnoException).code}). Make it, or set ` +
        'REVIEWSTAND_BACKUP_FOLDER to another one.',
      { cause },
    )
  }
}

async function withDatabase<Result>(url: string, work: (database: pg.Client) => Promise<Result>): Promise<Result> {
  const database = await connectDatabase(url)
  try {
    return await work(database)
  } finally {
    await database.end().catch(() => {})
  }
}
