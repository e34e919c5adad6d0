import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import writeXlsxFile from 'write-excel-file/node'
import type { Cell, FileRow } from '../../../server/domain/import/file-row.ts'
import { openTable } from '../../../server/files/open-table.ts'
import { makeWorkbook, makeZip } from '../../support/make-zip.ts'

const LIMIT = 50_000_000
let folder: string
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-files-'))
})
afterAll(() => fs.rmSync(folder, { recursive: true }))

let files = 0
const file = (content: Buffer | string): string => {
  const name = path.join(folder, String(files++))
  fs.writeFileSync(name, content)
  return name
}

async function rowsOf(content: Buffer | string): Promise<FileRow[]> {
  const table = await openTable(file(content), LIMIT)
  if (table.format === 'json') throw new Error('JSON')
  const rows: FileRow[] = []
  for await (const row of table.rows) rows.push(row)
  table.close()
  return rows
}
const cellsOf = async (content: Buffer | string): Promise<(readonly Cell[])[]> =>
  (await rowsOf(content)).map(({ cells }) => cells)
const refusal = async (content: Buffer | string): Promise<string> =>
  rowsOf(content).then(
    () => 'taken',
    (error: { rule?: string; message: string }) => `${error.rule}: ${error.message}`,
  )

describe('text', () => {
  const NAMES = 'Nummer;Name\r\n1007;Müller\r\n'
  it.each([
    ['UTF-8', Buffer.from(NAMES)],
    ['UTF-8 with a byte order mark', Buffer.from(`\ufeff${NAMES}`)],
    ['UTF-16, little end first', Buffer.from(`\ufeff${NAMES}`, 'utf16le')],
    ['UTF-16, big end first', Buffer.from(`\ufeff${NAMES}`, 'utf16le').swap16()],
    ['Windows-1252', Buffer.from(NAMES, 'latin1')],
    ['a line that names the delimiter', Buffer.from(`sep=;\n${NAMES}`)],
  ])('is read as %s', async (_, content) => {
    expect(await cellsOf(content)).toEqual([
      ['Nummer', 'Name'],
      ['1007', 'Müller'],
    ])
  })

  // 0x80 and 0x93 of Windows-1252 are € and “ (encoding.spec.whatwg.org, index-windows-1252).
  it('knows what Windows-1252 has beyond Latin-1', async () => {
    expect(await cellsOf(Buffer.from([0x61, 0x3b, 0x80, 0x0a, 0x62, 0x3b, 0x93]))).toEqual([
      ['a', '€'],
      ['b', '“'],
    ])
  })

  it.each([
    ['semicolons', 'a;b,c;d\n1;2,5;3\n4;5,5;6\n', ['a', 'b,c', 'd']],
    ['tabs', 'a\tb;c\td\n1\t2\t3\n', ['a', 'b;c', 'd']],
    ['commas', 'a,b,c\n1,"2;3",4\n', ['a', 'b', 'c']],
    ['bars', 'a|b|c\n1|2|3\n', ['a', 'b', 'c']],
    ['one column', 'a\n1\n', ['a']],
  ])('with %s between the cells', async (_, content, first) => {
    expect((await cellsOf(content))[0]).toEqual(first)
  })

  it('keeps line breaks in quotes, empty rows and quotes in a cell, and numbers rows as a spreadsheet does', async () => {
    const rows = await rowsOf('a,b\n"one\ntwo","say ""go"""\n\n3 in" x,4,,\n')
    expect(rows).toEqual([
      { number: 1, cells: ['a', 'b'] },
      { number: 2, cells: ['one\ntwo', 'say "go"'] },
      { number: 3, cells: [''] },
      { number: 4, cells: ['3 in" x', '4', '', ''] },
    ])
  })

  it('is refused where a quote is never closed', async () => {
    expect(await refusal('a,b\n1,2\n"open,3\n4,5\n')).toMatch(/^quote-not-closed: .*row 2/)
  })
})

describe('a workbook', () => {
  it('is read as another program writes it', async () => {
    const book = await writeXlsxFile([
      [{ value: 'Number' }, { value: 'Day' }, { value: 'Share' }, { value: 'Set' }],
      [
        { value: 'R & <D>' },
        { value: new Date('2026-03-02T00:00:00Z'), format: 'yyyy-mm-dd' },
        { value: 0.1 },
        { value: true, type: Boolean },
      ],
    ]).toBuffer()
    expect(await cellsOf(book)).toEqual([
      ['Number', 'Day', 'Share', 'Set'],
      ['R & <D>', '2026-03-02', 0.1, 'true'],
    ])
  })

  it('gives days by its date system, times, digits in front, and text that looks like a number', async () => {
    const cells =
      '<c r="A1" s="1"><v>61</v></c><c r="B1" s="3"><v>45000.5</v></c><c r="C1" s="2"><v>107</v></c><c r="D1" t="inlineStr"><is><r><t>01</t></r><r><t>1</t></r></is></c><c r="F1" t="str"><f>A1</f><v>x</v></c>'
    expect(await cellsOf(makeWorkbook({ rows: `<row r="1">${cells}</row>` }))).toEqual([
      ['1900-03-01', '2023-03-15T12:00', '00107', '011', '', 'x'],
    ])
    const [since1904] = await cellsOf(makeWorkbook({ rows: `<row r="1">${cells}</row>`, date1904: true }))
    expect(since1904!.slice(0, 2)).toEqual(['1904-03-02', '2027-03-16T12:00'])
  })

  it('says what is wrong with a formula without value, an error, and the day that never was', async () => {
    const rows =
      '<row r="4"><c r="A4"><f>SUM(B1:B2)</f></c><c r="B4"><f>1/0</f><v></v></c><c r="C4" t="e"><f>1/0</f><v>#DIV/0!</v></c><c r="D4" s="1"><v>60</v></c><c r="E4"><f>1+1</f><v>2</v></c></row>'
    const [row] = await rowsOf(makeWorkbook({ rows }))
    expect(row).toMatchObject({ number: 4, cells: ['', '', '', '', 2] })
    expect(row!.problems!.map(({ column, detail }) => [column, detail.slice(0, 30)])).toEqual([
      [0, 'The cell holds a formula whose'],
      [1, 'The cell holds a formula whose'],
      [2, 'The cell holds the error #DIV/'],
      [3, 'The number 60 is shown as a da'],
    ])
  })

  it('is refused where it unpacks too large, whatever it says, or declares entities', async () => {
    const zeros = makeZip({ 'xl/workbook.xml': Buffer.alloc(700_000_000) })
    expect(zeros.length).toBeLessThan(1_000_000)
    expect(await refusal(zeros)).toMatch(/^unpacks-too-large: /)
    const liar = makeWorkbook({ rows: `<row r="1"><c r="A1"><v>${'0'.repeat(5_000_000)}1</v></c></row>` }, 900)
    expect(await refusal(liar)).toMatch(/^damaged-workbook: /)
    const bomb = makeWorkbook({
      rows: '',
      doctype: '<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b SYSTEM "file:///etc/passwd">]>',
    })
    expect(await refusal(bomb)).toMatch(/^declares-entities: /)
    expect(await refusal(makeWorkbook({ rows: '<row r="1"><c r="A1" t="str"><v>&a;</v></c>' }))).toMatch(
      /^damaged-workbook: /,
    )
  })
})

describe('fifty megabytes', () => {
  const LINES = 500_000
  const line = (number: number) => `R${String(number).padStart(6, '0')};${'Quarter turn '.repeat(6)}${number % 1000}`

  it('of text are read to the last row, one at a time', async () => {
    const name = file(Buffer.alloc(0))
    const out = fs.openSync(name, 'w')
    for (let from = 0; from < LINES; from += 10_000) {
      fs.writeSync(out, Array.from({ length: 10_000 }, (_, index) => `${line(from + index)}\r\n`).join(''))
    }
    fs.closeSync(out)
    expect(fs.statSync(name).size).toBeGreaterThan(0.9 * LIMIT)
    const table = await openTable(name, LIMIT)
    if (table.format === 'json') throw new Error('JSON')
    let rows = 0
    let last: FileRow | undefined
    for await (const row of table.rows) {
      rows += 1
      last = row
    }
    expect(rows).toBe(LINES)
    expect(last!.cells).toEqual(line(LINES - 1).split(';'))
  })
})

describe('what is no table', () => {
  const compound = (more: Buffer) => Buffer.concat([Buffer.from('d0cf11e0a1b11ae1', 'hex'), Buffer.alloc(600), more])
  it.each([
    ['nothing', Buffer.alloc(0), 'empty-file'],
    ['a PDF', Buffer.from('%PDF-1.7\n%âãÏÓ\n'), 'no-spreadsheet'],
    ['a PNG', Buffer.from('89504e470d0a1a0a', 'hex'), 'no-spreadsheet'],
    ['an old workbook', compound(Buffer.from('Workbook', 'utf16le')), 'old-workbook'],
    ['a workbook with a password', compound(Buffer.from('EncryptedPackage', 'utf16le')), 'password-protected'],
    ['a zip of something else', makeZip({ 'word/document.xml': '<w/>' }), 'no-spreadsheet'],
    ['a damaged zip', Buffer.from('PK\x03\x04 and nothing'), 'damaged-workbook'],
    ['a program', Buffer.from([0x7f, 0x45, 0x4c, 0x46, 0, 0, 0, 1]), 'no-spreadsheet'],
    ['half of JSON', Buffer.from('[{"rosterNumber": '), 'no-json'],
  ])('%s is refused with what to do', async (_, content, rule) => {
    const said = await refusal(content)
    expect(said).toMatch(new RegExp(`^${rule}: `))
    expect(said).toMatch(/Send|send|save|Save|is none|is not read/)
  })

  it('reads JSON with a byte order mark', async () => {
    expect(await openTable(file('\ufeff[{"a": 1}]'), LIMIT)).toMatchObject({ format: 'json', content: [{ a: 1 }] })
  })
})
