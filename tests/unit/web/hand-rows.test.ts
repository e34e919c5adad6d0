import { describe, expect, it } from 'vitest'
import { COLUMNS } from '../../../server/domain/import/columns-of-kind.ts'
import {
  columnsOf,
  emptyRow,
  HAND_COLUMNS,
  type HandKind,
  isBlock,
  nextRow,
  toText,
  withBlock,
  withCell,
} from '../../../web/features/imports/by-hand/hand-rows.ts'

describe('rows written by hand', () => {
  it('have labels that a file of their kind has, and all that it needs', () => {
    for (const kind of Object.keys(HAND_COLUMNS) as HandKind[]) {
      const titles = COLUMNS[kind].map(({ title }) => title)
      expect(titles).toEqual(expect.arrayContaining([...HAND_COLUMNS[kind]]))
      const needed = COLUMNS[kind].filter((column) => column.needed).map(({ title }) => title)
      expect([...HAND_COLUMNS[kind]]).toEqual(expect.arrayContaining(needed))
    }
  })

  it('go on with what mostly stays the same, which alone makes no row', () => {
    const row = ['2001', 'Vale', 'Kim', 'SGT', 'sword', '1st Platoon', '2026-01-05']
    const next = nextRow(HAND_COLUMNS.roster, row)
    expect(next).toEqual(['', '', '', 'SGT', 'sword', '1st Platoon', '2026-01-05'])
    expect(toText(HAND_COLUMNS.roster, [row, next]).split('\n')).toHaveLength(2)
  })

  it('ask for arms only where somebody carries any', () => {
    expect(columnsOf('roster', true)).toEqual(HAND_COLUMNS.roster)
    expect(columnsOf('roster', false)).toEqual(HAND_COLUMNS.roster.filter((title) => title !== 'Arms'))
    expect(columnsOf('awards', false)).toEqual(HAND_COLUMNS.awards)
  })

  it('take a block where the cursor is, with rows added and what is too wide left out', () => {
    const rows = withBlock(
      [emptyRow(HAND_COLUMNS.sponsorships)],
      0,
      1,
      '1003\t2026-01-05\tleft out\r\n1004\t2026-02-01\r\n',
    )
    expect(rows).toEqual([
      ['', '1003', '2026-01-05'],
      ['', '1004', '2026-02-01'],
    ])
    expect([isBlock('1003'), isBlock('1003\n'), isBlock('1003\t4')]).toEqual([false, false, true])
  })

  it('are text that keeps a tab, a quote and a line within its cell', () => {
    const rows = withCell([emptyRow(HAND_COLUMNS.sponsorships)], 0, 0, '10"0\t7')
    expect(toText(HAND_COLUMNS.sponsorships, rows)).toBe('Candidate\tSponsor\tFrom\n"10""0\t7"\t\t')
  })
})
