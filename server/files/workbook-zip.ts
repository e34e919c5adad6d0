import type { Readable } from 'node:stream'
import { type Entry, openPromise, type ZipFile } from 'yauzl'
import { notReadable } from './sniff-format.ts'

const MOST_PARTS = 5_000

/** The parts of a workbook, each read as text in pieces. */
export interface WorkbookZip {
  readonly names: readonly string[]
  text(name: string): AsyncGenerator<string>
  close(): void
}

/**
 * Opens a workbook without unpacking it. Refuses one whose parts say they are larger than `mostBytes` together; a part
 * that turns out larger than it said ends the reading.
 */
export async function openWorkbookZip(path: string, mostBytes: number): Promise<WorkbookZip> {
  const zip = await openPromise(path, { lazyEntries: true, autoClose: false }).catch((error: unknown) => {
    throw damaged(error)
  })
  try {
    const parts = await readParts(zip, mostBytes)
    if (!parts.has('xl/workbook.xml')) {
      throw notReadable(
        'no-spreadsheet',
        'This archive is no .xlsx workbook. Save the table as .xlsx or as CSV, and send that.',
      )
    }
    return {
      names: [...parts.keys()],
      text: (name) => readPart(zip, parts.get(name)),
      close: () => zip.close(),
    }
  } catch (error) {
    zip.close()
    throw error
  }
}

async function readParts(zip: ZipFile, mostBytes: number): Promise<Map<string, Entry>> {
  const parts = new Map<string, Entry>()
  let bytes = 0
  try {
    for await (const entry of zip.eachEntry()) {
      bytes += entry.uncompressedSize
      parts.set(entry.fileName, entry)
      if (bytes > mostBytes || parts.size > MOST_PARTS) break
    }
  } catch (error) {
    throw damaged(error)
  }
  if (bytes <= mostBytes && parts.size <= MOST_PARTS) return parts
  const megabytes = Math.floor(mostBytes / 1_000_000)
  throw notReadable(
    'unpacks-too-large',
    `Unpacked, the workbook is larger than ${megabytes} MB. Send its table alone, or in parts, as CSV.`,
  )
}

async function* readPart(zip: ZipFile, entry: Entry | undefined): AsyncGenerator<string> {
  if (!entry) return
  const decoder = new TextDecoder()
  let stream: Readable | undefined
  try {
    stream = await zip.openReadStreamPromise(entry)
    for await (const piece of stream as AsyncIterable<Buffer>) yield decoder.decode(piece, { stream: true })
    yield decoder.decode()
  } catch (error) {
    throw damaged(error)
  } finally {
    stream?.destroy()
  }
}

const damaged = (error: unknown) => {
  const why = error instanceof Error && /encrypted/i.test(error.message) ? 'protected by a password' : 'damaged'
  return notReadable(
    'damaged-workbook',
    `The workbook is ${why}. Open it in your spreadsheet program, save a copy, and send that.`,
  )
}
