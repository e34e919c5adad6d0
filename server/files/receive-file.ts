import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { pipeline } from 'node:stream/promises'
import { AppError } from '../errors.ts'
import { readingGivenUp } from './refusals.ts'
import { notReadable } from './sniff-format.ts'

const PREFIX = 'reviewstand-import-'

/**
 * Keeps what is sent in a file that only this user can read, while it is worked with; then it is gone.
 * In: the bytes as they come, how many there may be, and a signal that ends the waiting for them.
 * Throws an AppError where there are more, or the disk is full.
 */
export async function receiveFile<Result>(
  source: AsyncIterable<Buffer>,
  { mostBytes, signal }: { mostBytes: number; signal: AbortSignal },
  work: (path: string) => Promise<Result>,
): Promise<Result> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), `${PREFIX}${process.pid}-`))
  const file = path.join(folder, randomUUID())
  try {
    await pipeline(limited(source, mostBytes), fs.createWriteStream(file, { mode: 0o600 }), { signal })
    return await work(file)
  } catch (error) {
    if (signal.aborted) throw readingGivenUp()
    throw isDiskFull(error) ? diskFull() : error
  } finally {
    fs.rmSync(folder, { recursive: true, force: true })
  }
}

/** Removes what servers that were killed have left of files that were being taken in. */
export function removeLeftUploads(): void {
  for (const name of fs.readdirSync(os.tmpdir())) {
    const owner = name.startsWith(PREFIX) ? /^(\d+)-/.exec(name.slice(PREFIX.length))?.[1] : undefined
    if (owner === undefined || isAlive(Number(owner))) continue
    const folder = path.join(os.tmpdir(), name)
    try {
      if (fs.lstatSync(folder).uid === (process.getuid?.() ?? fs.lstatSync(folder).uid))
        fs.rmSync(folder, { recursive: true })
    } catch {
      // Somebody else has removed it, or it is not ours to remove.
    }
  }
}

/** A process of another user is alive as well, though it may not be signalled. */
function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0)
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM'
  }
}

async function* limited(source: AsyncIterable<Buffer>, mostBytes: number): AsyncGenerator<Buffer> {
  let bytes = 0
  for await (const piece of source) {
    bytes += piece.length
    if (bytes > mostBytes) {
      const megabytes = Math.floor(mostBytes / 1_000_000)
      throw notReadable(
        'file-too-large',
        `The file is larger than ${megabytes} MB. Send it in parts, or have REVIEWSTAND_IMPORT_MEGABYTES raised.`,
      )
    }
    yield piece
  }
}

const isDiskFull = (error: unknown): boolean =>
  ['ENOSPC', 'EDQUOT'].includes(String((error as { code?: unknown } | null)?.code))

/** No room is left on a disk. */
export const diskFull = () =>
  new AppError(
    'unavailable',
    'disk-full',
    'The disk of the server is full. Nothing was stored; make room and try again.',
  )
