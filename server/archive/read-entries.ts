import { createHash } from 'node:crypto'
import fs from 'node:fs'
import { pipeline } from 'node:stream/promises'
import { createGunzip } from 'node:zlib'
import { extract } from 'tar-stream'
import { StartProblem } from '../config/start-problem.ts'

/** No file of ours is longer: a part ends at the row with which it reaches 4 MiB, and a manifest is short. */
const LONGEST_BYTES = 268_435_456

export interface ArchiveEntry {
  readonly name: string
  readonly content: Buffer
  readonly sha256: string
}

/**
 * The files of an archive, one after the other, each whole in memory.
 * @throws StartProblem where it is no gzipped tar, or ends too early
 */
export async function* readEntries(file: string): AsyncGenerator<ArchiveEntry> {
  const archive = extract()
  let broken: unknown
  const read = pipeline(fs.createReadStream(file), createGunzip(), archive).catch((error: unknown) => {
    broken = error
  })
  try {
    for await (const entry of archive) {
      const { name, size = 0 } = entry.header
      if (size > LONGEST_BYTES) throw new Error(`${name} is too long`)
      const parts: Buffer[] = []
      for await (const part of entry) parts.push(part as Buffer)
      const content = Buffer.concat(parts)
      yield { name, content, sha256: createHash('sha256').update(content).digest('hex') }
    }
    await read
    if (broken) throw broken
  } catch (cause) {
    throw cause instanceof StartProblem ? cause : damaged(file, cause)
  } finally {
    archive.destroy()
  }
}

function damaged(file: string, cause: unknown): StartProblem {
  const code = (cause as NodeJS.ErrnoException).code
  if (code === 'ENOENT') return new StartProblem(`There is no file ${file}.`, { cause })
  if (code === 'EACCES' || code === 'EISDIR') return new StartProblem(`${file} can't be read (${code}).`, { cause })
  return new StartProblem(
    `${file} is no whole archive of Reviewstand: it was cut off, damaged, or is something else ` +
      `(${(cause as Error).message}). Nothing was changed. Use another copy of it.`,
    { cause },
  )
}
