import readXlsxFile from 'read-excel-file/node'
import { describe, expect, it } from 'vitest'
import { tableFileName, toXlsx } from '../../../web/ui/save-table.ts'
import { readFigure } from '../../../web/ui/table-cells.ts'
import { toCsv } from '../../../web/ui/to-csv.ts'

describe('a table as a workbook', () => {
  it('is read back cell by cell: text as text, whatever it begins with, and numbers as numbers', async () => {
    const rows = [
      ['Soldier', 'Tests'],
      ['=HYPERLINK("http://example.test")', -3],
      ['+1', 0],
      ['-2', 12.5],
      ['@sum', null],
      ['Ñandú, “Ann” 李', 7],
    ]
    const blob = await toXlsx(rows)
    const [sheet] = await readXlsxFile(Buffer.from(await blob.arrayBuffer()))
    expect(sheet?.data).toEqual(rows)
  })
})

describe('days and moments', () => {
  const rows = [
    ['Due', 'Sent'],
    [{ day: '2026-03-08' }, { moment: '2026-12-05T14:05:00.000Z' }],
  ]

  it('are real dates in a workbook', async () => {
    const blob = await toXlsx(rows)
    const [sheet] = await readXlsxFile(Buffer.from(await blob.arrayBuffer()))
    expect(sheet?.data[1]).toEqual([new Date('2026-03-08T00:00:00Z'), new Date('2026-12-05T14:05:00Z')])
  })

  it('are as ISO 8601 has them in CSV', () => {
    expect(toCsv(['Due', 'Sent'], rows.slice(1))).toBe('Due,Sent\r\n2026-03-08,2026-12-05T14:05:00.000Z\r\n')
  })
})

describe('the name of its file', () => {
  it('says what and of which day', () => {
    expect(tableFileName('Readiness by company (all)', '2026-06-15', 'xlsx')).toBe(
      'readiness-by-company-all-2026-06-15.xlsx',
    )
    expect(tableFileName('…', '2026-06-15', 'csv')).toBe('table-2026-06-15.csv')
  })
})

describe('a figure on the screen', () => {
  it.each([
    ['12', 12],
    ['1,234', 1234],
    ['1 234.5', 1234.5],
    ['−3', -3],
    ['-0.25', -0.25],
    ['–', '–'],
    ['42 %', '42 %'],
    ['3 of 7', '3 of 7'],
    ['2026-06-15', '2026-06-15'],
    ['=1+1', '=1+1'],
  ])('%s is %s', (text, value) => expect(readFigure(text)).toBe(value))
})
