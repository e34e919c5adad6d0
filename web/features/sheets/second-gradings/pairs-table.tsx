import { Link } from 'wouter'
import type { SecondGrading } from '#contract/sheets/second-gradings.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { standardTitle } from '../../../domain/standards/titles.ts'
import { dayFact, fact } from '../../../parts/readiness/facts.ts'
import { Table } from '../../../ui/table.tsx'
import type { Pages } from '../../../ui/table-files.tsx'
import { formatDay } from '../../../words/format-day.ts'

interface PairsTableProps {
  pairs: readonly SecondGrading[]
  pages: Pages
  standards: readonly Standard[]
  today: string
  /** Where both sheets of an attempt stand side by side. */
  addressOf: (sheetId: string) => string
}

/** Attempts that two graded, and whether they came to the same outcome. */
export function PairsTable({ pairs, pages, standards, today, addressOf }: PairsTableProps) {
  return (
    <Table<SecondGrading>
      caption="Attempts graded by two"
      pages={pages}
      rows={pairs}
      rowKey={({ second }) => second.sheetId}
      columns={[
        {
          head: 'Day',
          facts: [dayFact('Day', ({ day }) => day)],
          tight: true,
          cell: ({ day }) => formatDay(day, today),
        },
        {
          head: 'Candidate',
          facts: [fact('Candidate', ({ candidate }) => candidate)],
          bare: true,
          cell: ({ candidate, second }) => (
            <Link href={addressOf(second.sheetId)}>
              <b>
                <bdi>{candidate}</bdi>
              </b>
            </Link>
          ),
        },
        { head: 'Standard', bare: true, cell: ({ standard }) => standardTitle(standards, standard) },
        {
          head: 'First',
          facts: [
            fact('First outcome', ({ first }) => first.outcome),
            fact('First grader', ({ first }) => first.grader),
          ],
          cell: ({ first }) => `${first.outcome}, ${first.grader}`,
        },
        {
          head: 'Second',
          facts: [
            fact('Second outcome', ({ second }) => second.outcome),
            fact('Second grader', ({ second }) => second.grader),
          ],
          cell: ({ second }) => `${second.outcome}, ${second.grader}`,
        },
        {
          head: 'Together',
          facts: [fact('They differ', ({ differs }) => (differs ? 'yes' : 'no'))],
          bare: true,
          cell: ({ differs }) => (differs ? 'they differ' : 'the same outcome'),
        },
      ]}
    />
  )
}
