import fs from 'node:fs'
import { notReadable } from './sniff-format.ts'

export type TextEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252'

/**
 * How a text file is encoded: as its byte order mark says; without one UTF-8 if all of it is, else Windows-1252, which old
 * spreadsheet programs write. Refuses what holds NUL and so is no text.
 */
export async function textEncoding(path: string): Promise<TextEncoding> {
  const decoder = new TextDecoder('utf-8', { fatal: true })
  let isUtf8 = true
  let first = true
  for await (const piece of fs.createReadStream(path) as AsyncIterable<Buffer>) {
    const mark = piece.subarray(0, 2).toString('hex')
    if (first && mark === 'fffe') return 'utf-16le'
    if (first && mark === 'feff') return 'utf-16be'
    first = false
    if (piece.includes(0))
      throw notReadable('no-spreadsheet', 'This is neither a spreadsheet nor text. Send an .xlsx, CSV or JSON file.')
    if (isUtf8) isUtf8 = decodes(decoder, piece)
  }
  return isUtf8 && decodes(decoder) ? 'utf-8' : 'windows-1252'
}

function decodes(decoder: InstanceType<typeof TextDecoder>, piece?: Buffer): boolean {
  try {
    decoder.decode(piece, { stream: piece !== undefined })
    return true
  } catch {
    return false
  }
}

/** The text of a file, piece by piece, without its byte order mark. */
export async function* readText(path: string, encoding: TextEncoding): AsyncGenerator<string> {
  const decoder = new TextDecoder(encoding)
  for await (const piece of fs.createReadStream(path) as AsyncIterable<Buffer>)
    yield decoder.decode(piece, { stream: true })
  yield decoder.decode()
}
