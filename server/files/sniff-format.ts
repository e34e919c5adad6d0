import fs from 'node:fs/promises'
import { type ErrorItem, invalid } from '../errors.ts'

export type FileFormat = 'csv' | 'xlsx' | 'json'

const SAVE_AS = 'Open it in the spreadsheet program it came from and save it as .xlsx or as CSV, then send that.'
const COMPOUND_FILE = 'd0cf11e0a1b11ae1'
/** What other files begin with, in hexadecimal. */
const OTHERS: readonly (readonly [string, string])[] = [
  ['25504446', 'a PDF'],
  ['89504e47', 'a PNG picture'],
  ['ffd8ff', 'a JPEG picture'],
  ['47494638', 'a GIF picture'],
  ['1f8b', 'a gzip archive'],
  ['377abcaf', 'a 7z archive'],
  ['52617221', 'a RAR archive'],
  ['7b5c727466', 'a text document (RTF)'],
]

/**
 * What kind of file it is, by its content. Refuses what is no spreadsheet, table or JSON, and says what to do.
 * An old workbook (.xls) and a workbook with a password are both compound files; the latter names its encrypted part.
 */
export async function sniffFormat(path: string): Promise<FileFormat> {
  const head = await readHead(path)
  if (head.length === 0) throw notReadable('empty-file', 'The file is empty. Send one that has a header and rows.')
  const hex = head.subarray(0, 8).toString('hex')
  if (hex === COMPOUND_FILE) {
    if (head.includes(Buffer.from('EncryptedPackage', 'utf16le'))) {
      throw notReadable(
        'password-protected',
        'The workbook is protected by a password. Save a copy without one, and send that.',
      )
    }
    throw notReadable('old-workbook', `This is a workbook of the old kind (.xls). ${SAVE_AS}`)
  }
  if (hex.startsWith('504b0304') || hex.startsWith('504b0506')) return 'xlsx'
  const other = OTHERS.find(([start]) => hex.startsWith(start))
  if (other) throw notReadable('no-spreadsheet', `This is ${other[1]}, not a spreadsheet. ${SAVE_AS}`)
  const text = head
    .toString('latin1')
    .replace(/^\u00ef\u00bb\u00bf/, '')
    .trimStart()
  return /^(\{|\[\s*[{[\]"])/.test(text) ? 'json' : 'csv'
}

/** Enough to find the directory of a compound file, which stands anywhere in it, mostly near its beginning. */
const HEAD_BYTES = 1_048_576

async function readHead(path: string): Promise<Buffer> {
  const file = await fs.open(path)
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES, 0)
    return buffer.subarray(0, bytesRead)
  } finally {
    await file.close()
  }
}

/** A file that cannot be taken, with what to do. */
export const notReadable = (rule: ErrorItem['rule'], detail: string) => invalid(rule, '', detail)
