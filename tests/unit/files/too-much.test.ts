import { randomUUID } from 'node:crypto'
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readApart } from '../../../server/files/read-apart.ts'
import type { Part } from '../../../server/files/reading-messages.ts'
import { removeLeftUploads } from '../../../server/files/receive-file.ts'
import { makeWorkbook } from '../../support/make-zip.ts'

const MOST_BYTES = 50_000_000
let folder: string
beforeAll(() => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'reviewstand-files-'))
})
afterAll(() => fs.rmSync(folder, { recursive: true }))

function file(content: Buffer | string): string {
  const name = path.join(folder, randomUUID())
  fs.writeFileSync(name, content)
  return name
}

const never = new AbortController().signal

async function read(content: Buffer | string, signal = never): Promise<Part[]> {
  const reading = readApart({ path: file(content), mostBytes: MOST_BYTES }, signal)
  const parts: Part[] = []
  try {
    for await (const part of reading.parts) parts.push(part)
  } finally {
    reading.close()
  }
  return parts
}

const refusal = (content: Buffer | string): Promise<string> =>
  read(content).then(
    () => 'taken',
    (error: { rule?: string; message: string }) => `${error.rule}: ${error.message}`,
  )

const sheet = (rows: string) => ({ rows })
const inline = (text: string) => `<row r="1"><c r="A1" t="inlineStr"><is><t>${text}</t></is></c></row>`

describe('a file that holds too much of one thing is refused, and says which', () => {
  const COMMAS = ','.repeat(20_000_000)
  it.each([
    ['a workbook with a cell of 45 MB', () => makeWorkbook(sheet(inline('a'.repeat(45_000_000)))), /^cell-too-long/],
    [
      'a cell of many short texts',
      () => makeWorkbook(sheet(inline('a<x/>'.repeat(40_000)))),
      /^cell-too-long: Row 1, column 1/,
    ],
    ['a comment of 20 MB', () => makeWorkbook(sheet(`<!--${'a'.repeat(20_000_000)}-->`)), /^cell-too-long/],
    ['a row beyond the last', () => makeWorkbook(sheet('<row r="99999999999"><c r="A1"/></row>')), /^too-many-rows/],
    ['rows that do not count upward', () => makeWorkbook(sheet('<row r="2"/><row r="1"/>')), /^damaged-workbook/],
    ['a row that is no number', () => makeWorkbook(sheet('<row r="x"/>')), /^damaged-workbook/],
    ['a row of 20 MB of commas', () => COMMAS, /^too-many-columns: Row 1 /],
    ['a second row of commas', () => `a,b\n${COMMAS}`, /^too-many-columns: Row 2 /],
    ['a row of 1,001 cells', () => `a${','.repeat(1_000)}\n`, /^too-many-columns: Row 1 /],
    ['a line of 20 MB', () => 'a'.repeat(20_000_000), /^row-too-long: Line 1/],
    ['a cell of 40,000 characters', () => `a,b\n1,${'a'.repeat(40_000)}\n`, /^cell-too-long: Row 2, column 2/],
    ['two million empty rows', () => '\n'.repeat(2_000_000), /^too-many-rows/],
    ['JSON in JSON in JSON', () => '['.repeat(20_000_000), /^too-deep/],
    ['a text of 20 MB in JSON', () => `[{"rosterNumber":"${'a'.repeat(20_000_000)}"}]`, /^cell-too-long/],
    ['a number no computer reads', () => '[{"rosterNumber":"1","from":1e999}]', /^number-out-of-range/],
    [
      'a thing of 2 MB',
      () => `[{"rosterNumber":"1","from":"2","x":[${'"a",'.repeat(600_000)}"a"]}]`,
      /^row-too-long: Entry 1/,
    ],
  ])('%s', async (_, content, expected) => {
    expect(await refusal(await content())).toMatch(expected)
  })

  it('says that a quotation mark is not closed only where there is one', async () => {
    expect(await refusal(`a,b\n1,"${'a\n'.repeat(600_000)}`)).toMatch(/^quote-not-closed/)
    expect(await refusal(`a,b\n1,${'a'.repeat(1_100_000)}\n`)).toMatch(/^row-too-long: Line 2/)
  })

  it('but takes what is large and in order', async () => {
    const rows = Array.from({ length: 30_000 }, (_, at) => `${at},${'a'.repeat(32_000 * Number(at === 7))},"x\ny"`)
    const parts = await read(`number,text,note\n${rows.join('\n')}`)
    expect(parts.flatMap((part) => ('rows' in part ? part.rows : []))).toHaveLength(30_001)
  })
})

describe('a number out of range in a cell', () => {
  it('is wrong, with its column, and the rest of the row is read', async () => {
    const cells = '<c r="A1"><v>1e999</v></c><c r="B1"><v>7</v></c><c r="C1"><v>x</v></c>'
    const parts = await read(await makeWorkbook(sheet(`<row r="1">${cells}</row>`)))
    const [row] = parts.flatMap((part) => ('rows' in part ? part.rows : []))
    expect(row).toMatchObject({ cells: ['', 7, ''], problems: [{ column: 0 }, { column: 2 }] })
  })
})

describe('reading', () => {
  it('ends when its signal says so, between two pieces and within one', async () => {
    const gone = new AbortController()
    const reading = readApart({ path: file('a,b\n1,2\n'), mostBytes: MOST_BYTES }, gone.signal)
    expect(await reading.parts.next()).toMatchObject({ value: { table: { format: 'csv' } } })
    gone.abort()
    await expect(reading.parts.next()).rejects.toThrow(/given up/)
    reading.close()
    await expect(read('a,b\n1,2\n', AbortSignal.abort())).rejects.toThrow(/given up/)
  })

  it('goes on with other files while one is read, each by a reader of its own', async () => {
    const contents = ['a,b\n1,2\n', '[{"rosterNumber":"1","from":"2"}]', '{', 'x;y\n3;4\n']
    const found = await Promise.all(contents.map((content) => refusal(content)))
    expect(found.map((one) => one.replace(/:.*/, ''))).toEqual(['taken', 'taken', 'no-json', 'taken'])
  })
})

describe('what a killed server has left of files sent to it', () => {
  it('is removed; what belongs to one that runs stays', () => {
    const left = (pid: number) => fs.mkdtempSync(path.join(os.tmpdir(), `reviewstand-import-${pid}-`))
    const nobodys = 2 ** 22 + 1 // Beyond the largest process id of Linux (proc(5), pid_max).
    const [gone, ours] = [left(nobodys), left(process.pid)]
    fs.writeFileSync(path.join(gone, 'names'), 'secret')
    removeLeftUploads()
    expect([fs.existsSync(gone), fs.existsSync(ours)]).toEqual([false, true])
    fs.rmdirSync(ours)
  })
})
