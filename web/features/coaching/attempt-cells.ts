import type { Cell } from '../../ui/to-csv.ts'
import type { AttemptRow } from './attempt-rows.ts'

type Measures = readonly { code: string; title: string }[]

/** The attempts for a file, one fact a column: the day as a date, and of every measure its outcome and its trials. */
export const attemptCells = (rows: readonly AttemptRow[], measures: Measures): Cell[][] => [
  [
    ...['Day', 'Purpose', 'State', 'Ending', 'Outcome', 'Attempt', 'Minors GO', 'Minors', 'Needed', 'Remarks'],
    ...measures.flatMap(({ title }) => [title, `${title}: correct`, `${title}: incorrect`]),
  ],
  ...rows.map(({ sheet: { day, body, state, result }, cells, notes }): Cell[] => [
    { day },
    body.purpose,
    state,
    result.ending,
    result.outcome,
    result.attempts[0]?.number ?? null,
    result.ending === 'recorded' ? null : result.go,
    result.ending === 'recorded' ? null : result.minors.length,
    result.minimum,
    notes.join('; '),
    ...cells.flatMap((cell): Cell[] => [
      cell?.outcome ?? null,
      cell ? count(cell.marks, 'correct') : null,
      cell ? count(cell.marks, 'incorrect') : null,
    ]),
  ]),
]

const count = (marks: readonly (string | null)[], mark: string): number => marks.filter((one) => one === mark).length
