import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { pipeline } from 'node:stream/promises'
import { AppError } from '../errors.ts'
import { notReadable } from './sniff-format.ts'

/**
 * Keeps what is sent in a file that only this user can read, while it is worked with; then it is gone.
 * In: the bytes as they come, and how many there may be. Throws an AppError where there are more, or the disk is full.
 */
export async function receiveFile<Result>(
  source: AsyncIterable<Buffer>,
  mostBytes: number,
  work: (path: string) => Promise<Result>,
): Promise<Result> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-import-'))
  const file = path.join(folder, randomUUID())
  try {
    await pipeline(limited(source, mostBytes), fs.createWriteStream(file, { mode: 0o600 }))
    return await work(file)
  } catch (error) {
    throw isDiskFull(error) ? diskFull() : error
  } finally {
    fs.rmSync(folder, { recursive: true, force: true })
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
