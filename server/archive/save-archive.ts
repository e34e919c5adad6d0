import fs from 'node:fs/promises'
import path from 'node:path'
import { Writable } from 'node:stream'
import type pg from 'pg'
import { StartProblem } from '../config/start-problem.ts'
import { checkArchive } from './check-archive.ts'
import type { Manifest } from './format.ts'
import { packArchive } from './pack-archive.ts'

export interface SaveOptions {
  readonly timeZone: string
  readonly product: string
  readonly onProgress?: (done: number, all: number) => void
  /** How the file is opened; tests give one that runs full. */
  readonly open?: typeof fs.open
}

/** Ending of a file that is being written; one that is left is of a process that was killed. */
export const UNFINISHED = '.unfinished'

/**
 * Writes an archive of the database into a file that nobody but its owner can read. It has its name only when it is
 * whole: written, on the disk, and read back with every checksum compared.
 * @throws StartProblem that says what went wrong; then no file is left
 */
export async function saveArchive(database: pg.Client, file: string, options: SaveOptions): Promise<Manifest> {
  const { open = fs.open, ...packing } = options
  if (await exists(file)) throw new StartProblem(`${file} is there already. Give another name, or move it away.`)
  const draft = `${file}.${process.pid}${UNFINISHED}`
  try {
    await fs.rm(draft, { force: true })
    const handle = await open(draft, 'wx', 0o600)
    try {
      await packArchive(database, intoFile(handle), packing)
      await handle.sync()
    } finally {
      await handle.close()
    }
    const manifest = await checkArchive(draft)
    await fs.rename(draft, file)
    await syncFolder(path.dirname(file))
    return manifest
  } catch (error) {
    await fs.rm(draft, { force: true }).catch(() => {})
    throw inPlainWords(error, file)
  }
}

/** The file stays open at its end, to be brought to the disk. */
function intoFile(handle: fs.FileHandle): Writable {
  return new Writable({
    write(part: Buffer, _encoding, done) {
      handle.appendFile(part).then(() => done(), done)
    },
  })
}

async function exists(file: string): Promise<boolean> {
  return fs.access(file).then(
    () => true,
    () => false,
  )
}

/** So that the name, too, outlives a loss of power; not every system lets a folder be opened. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await fs.open(folder, 'r').catch(() => null)
  await handle?.sync().catch(() => {})
  await handle?.close()
}

const NO_ROOM = new Set(['ENOSPC', 'EDQUOT', 'EFBIG'])

function inPlainWords(error: unknown, file: string): unknown {
  const { code } = error as NodeJS.ErrnoException
  if (code === undefined || error instanceof StartProblem) return error
  const folder = path.dirname(file)
  const nothing = 'No backup was made, and no part of one is left.'
  if (NO_ROOM.has(code)) {
    return new StartProblem(`There is no room left in ${folder}. ${nothing} Make room, or choose another folder.`, {
      cause: error,
    })
  }
  if (/^E[A-Z]+$/.test(code)) {
    return new StartProblem(`${file} can't be written (${code}). ${nothing} Choose a folder that can be written to.`, {
      cause: error,
    })
  }
  return error
}
