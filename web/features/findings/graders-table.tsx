import type { GraderFindings } from '#contract/findings/graders.ts'
import { soldierFacts } from '../../parts/readiness/facts.ts'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { counted } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'
import { formatCorrect, formatOneGrader, formatTwice, isCalled } from './format-graders.ts'

export type Grader = GraderFindings['items'][number]

export const nameOf = ({ grade, name }: Grader) => `${grade} ${name}`

interface GradersTableProps {
  graders: readonly Grader[]
  /** What the average grader marks correct; null where that is not known. */
  usual: number | null
}

/** Each grader in words and in figures. */
export function GradersTable({ graders, usual }: GradersTableProps) {
  return (
    <Section
      title="Graders"
      note={`${counted(graders.length, 'grader')}, ${graders.some(isCalled) ? 'those who differ first, then ' : ''}by name`}
    >
      <Table
        caption="Graders"
        rows={graders}
        rowKey={({ graderId }) => graderId}
        columns={[
          {
            head: 'Grader',
            facts: soldierFacts(),
            cell: (grader) => (
              <b>
                <bdi>{nameOf(grader)}</bdi>
              </b>
            ),
          },
          {
            head: 'In words',
            bare: true,
            cell: (one) => (isCalled(one) ? <b>{formatOneGrader(one)}</b> : formatOneGrader(one)),
          },
          { head: 'Would mark', cell: (one) => formatCorrect(one, usual) },
          { head: 'Same attempt as another', cell: formatTwice },
          { head: 'GO given', numeric: true, tight: true, cell: ({ passes, attempts }) => ofAll(passes, attempts) },
        ]}
      />
      <p className="rests-on">
        How strict somebody is rests on every trial on record of the standards chosen, whatever the other filters; the
        other columns follow the filters. GO given says as much about the candidates as about the grader.
      </p>
    </Section>
  )
}
