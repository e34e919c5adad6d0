import type { DateSystem } from '../domain/import/excel-serial.ts'
import { LONGEST_CELL, MOST_STRINGS } from './limits.ts'
import { readXml } from './parse-xml.ts'
import { cellTooLong } from './refusals.ts'
import { notReadable } from './sniff-format.ts'
import type { WorkbookZip } from './workbook-zip.ts'

/** How the numbers of a style are shown, as far as it changes what they say. */
export type NumberStyle = 'plain' | 'date' | { readonly digits: number }

export interface Workbook {
  readonly dateSystem: DateSystem
  /** Name and part of each sheet that is not hidden, in order. */
  readonly sheets: readonly { readonly name: string; readonly part: string }[]
  readonly styles: readonly NumberStyle[]
  readonly strings: readonly string[]
}

const MOST_STRING_CHARACTERS = 150_000_000

/** Reads what stands around the sheets of a workbook. */
export async function readWorkbookParts(zip: WorkbookZip): Promise<Workbook> {
  const sheets: { name: string; id: string }[] = []
  let dateSystem: DateSystem = 1900
  await readXml(zip.text('xl/workbook.xml'), {
    open(name, attributes) {
      if (name === 'workbookPr' && /^(1|true|on)$/.test(attributes().date1904 ?? '')) dateSystem = 1904
      if (name !== 'sheet') return
      const given = attributes()
      const id = Object.entries(given).find(([key]) => /(^|:)id$/.test(key))?.[1]
      if (given.name !== undefined && id !== undefined && !/hidden/i.test(given.state ?? ''))
        sheets.push({ name: given.name, id })
    },
  })
  const targets = new Map<string, string>()
  await readXml(zip.text('xl/_rels/workbook.xml.rels'), {
    open(name, attributes) {
      if (name !== 'Relationship') return
      const { Id = '', Target = '' } = attributes()
      targets.set(Id, Target.startsWith('/') ? Target.slice(1) : `xl/${Target.replace(/^\.\//, '')}`)
    },
  })
  const parts = sheets.flatMap(({ name, id }) => {
    const part = targets.get(id)
    return part !== undefined && zip.names.includes(part) ? [{ name, part }] : []
  })
  if (parts.length === 0)
    throw notReadable('no-sheet', 'The workbook has no sheet that is shown. Show the one with the table, and save it.')
  return { dateSystem, sheets: parts, styles: await readStyles(zip), strings: await readStrings(zip) }
}

async function readStrings(zip: WorkbookZip): Promise<string[]> {
  const strings: string[] = []
  let text = ''
  let inText = false
  let inPhonetic = false
  let characters = 0
  await readXml(zip.text('xl/sharedStrings.xml'), {
    open(name) {
      if (name === 'si') text = ''
      if (name === 'rPh') inPhonetic = true
      inText = name === 't' && !inPhonetic
    },
    close(name) {
      if (name === 't') inText = false
      if (name === 'rPh') inPhonetic = false
      if (name === 'si') strings.push(text)
    },
    text(more) {
      if (!inText) return
      text += more
      characters += more.length
      if (text.length > LONGEST_CELL) throw cellTooLong('A cell of the workbook')
      if (characters > MOST_STRING_CHARACTERS || strings.length > MOST_STRINGS)
        throw notReadable('unpacks-too-large', 'The texts of the workbook are too large. Send it in parts, as CSV.')
    },
  })
  return strings
}

/** Numbers of the formats for dates and times that every spreadsheet program has: ECMA-376-1:2016, 18.8.30. */
const isBuiltInDate = (id: number): boolean =>
  (id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) || (id >= 50 && id <= 58)

async function readStyles(zip: WorkbookZip): Promise<NumberStyle[]> {
  const formats = new Map<number, string>()
  const styles: NumberStyle[] = []
  let inCellFormats = false
  await readXml(zip.text('xl/styles.xml'), {
    open(name, attributes) {
      if (name === 'numFmt') {
        const { numFmtId, formatCode = '' } = attributes()
        formats.set(Number(numFmtId), formatCode)
      }
      if (name === 'cellXfs') inCellFormats = true
      if (name === 'xf' && inCellFormats) styles.push(styleOf(Number(attributes().numFmtId ?? 0), formats))
    },
    close(name) {
      if (name === 'cellXfs') inCellFormats = false
    },
  })
  return styles
}

function styleOf(id: number, formats: ReadonlyMap<number, string>): NumberStyle {
  const code = formats.get(id)
  if (code === undefined) return isBuiltInDate(id) ? 'date' : 'plain'
  const signs = code.split(';')[0]!.replace(/"[^"]*"|\\.|\[[^\]]*\]|_.|\*./g, '')
  if (/^0{2,}$/.test(signs)) return { digits: signs.length }
  return /[ymdhs]/i.test(signs) && !/general/i.test(signs) ? 'date' : 'plain'
}
