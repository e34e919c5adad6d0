import { describe, expect, it } from 'vitest'
import { COLUMNS } from '../../../../server/domain/import/columns-of-kind.ts'
import type { Cell } from '../../../../server/domain/import/file-row.ts'
import { findHeader } from '../../../../server/domain/import/find-header.ts'
import { matchColumns } from '../../../../server/domain/import/match-columns.ts'
import { measureColumns } from '../../../../server/domain/import/measure-columns.ts'

const rows = (...lines: Cell[][]) => lines.map((cells, index) => ({ number: index + 1, cells }))
const matched = (labels: string[], kind: keyof typeof COLUMNS) =>
  Object.fromEntries(matchColumns(labels, COLUMNS[kind]).map(({ key, index }) => [key, labels[index]]))

describe('columns are known by their labels', () => {
  it('whatever case, accents and punctuation they have', () => {
    expect(matched(['ROSTER-NO.', 'Súrname', 'First  name', 'Rank', 'Assigned to:', 'since'], 'roster')).toEqual({
      rosterNumber: 'ROSTER-NO.',
      familyName: 'Súrname',
      givenName: 'First  name',
      grade: 'Rank',
      unit: 'Assigned to:',
      from: 'since',
    })
  })

  it('also with a slip of the pen, but then less surely, and never two for one', () => {
    const labels = ['Roster nubmer', 'Certifcation', 'Awarded on', 'Awarded on', 'Expirey', 'Evidence', 'Shoe size']
    const matches = matchColumns(labels, COLUMNS.awards)
    expect(Object.fromEntries(matches.map(({ key, index }) => [key, index]))).toEqual({
      rosterNumber: 0,
      certification: 1,
      awardedOn: 2,
      validThrough: 4,
      evidence: 5,
    })
    for (const { key, likeness } of matches) {
      expect(likeness >= 0.95, key).toBe(['awardedOn', 'evidence'].includes(key))
    }
  })

  it('for measures by code or title, with their kind', () => {
    const columns = measureColumns([
      {
        majors: [{ code: 'composure', title: 'Ceremonial composure' }],
        minors: [{ code: 'eyes-right', title: 'Eyes right', gauges: [] }],
      },
    ])
    const labels = [
      'Eyes right',
      'eyes-right faults',
      'Eyes right readings',
      'Ceremonial composure',
      'composure at call',
    ]
    expect(
      matchColumns(labels, columns)
        .map(({ key }) => key)
        .sort(),
    ).toEqual([
      'measure/composure',
      'measure/composure/at call',
      'measure/eyes-right',
      'measure/eyes-right/faults',
      'measure/eyes-right/readings',
    ])
  })
})

describe('the header', () => {
  it('stands under titles and empty rows, and says what the file holds', () => {
    const found = findHeader(
      rows(
        ['Paper awards of A Company'],
        ['as of', '2026-06-01'],
        [],
        ['Roster number', 'Certification', 'Awarded on', 'Valid through', 'Evidence', ''],
        ['1007', 'sword', '2025-01-01', '2026-01-01', 'Binder 4'],
      ),
      COLUMNS,
    )
    expect(found).toMatchObject({ at: 3, kind: 'awards' })
  })

  it('puts a cell that spans columns before those under it, and a tall one over its own', () => {
    const [top, under] = [
      ['Roster number', 'Draw', '', ''],
      ['', 'trials', 'faults', 'readings'],
    ]
    const found = findHeader(
      rows(top!, under!),
      {
        ...COLUMNS,
        sheets: [
          ...COLUMNS.sheets,
          ...measureColumns([{ majors: [], minors: [{ code: 'draw', title: 'Draw', gauges: [] }] }]),
        ],
      },
      [{ row: 1, from: 1, to: 3 }],
      'sheets',
    )
    expect(found).toEqual({
      at: 1,
      kind: 'sheets',
      labels: ['Roster number', 'Draw trials', 'Draw faults', 'Draw readings'],
    })
  })

  it('numbers labels that stand there twice', () => {
    expect(findHeader(rows(['Number', 'From', 'Notes', 'Notes']), COLUMNS)?.labels).toEqual([
      'Number',
      'From',
      'Notes',
      'Notes (2)',
    ])
  })

  it.each([
    ['roster', ['Roster number', 'Family name', 'Given name', 'Grade', 'Unit', 'From']],
    ['sponsorships', ['Candidate', 'Sponsor', 'From', 'To']],
    ['appointments', ['Roster number', 'Standard', 'From', 'To']],
    ['results', ['Candidate', 'Standard', 'Day', 'Outcome', 'Grader']],
    ['ceremonies', ['Ceremony', 'Unit', 'Starts', 'Ends', 'Post', 'Row', 'Place', 'Certification']],
    ['standards', ['Code', 'Title', 'Effective from', 'Measure', 'Measure title', 'Faults']],
    ['sheets', ['Candidate', 'Grader', 'Sponsor', 'Standard', 'Started', 'Finished']],
  ] as const)('of %s is known', (kind, labels) => expect(findHeader(rows([...labels]), COLUMNS)?.kind).toBe(kind))

  it('is missing where no label is known', () => expect(findHeader(rows(['x', 'y'], ['1', '2']), COLUMNS)).toBe(null))
})
