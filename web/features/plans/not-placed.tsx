import { Link } from 'wouter'
import type { RetestPlanRows } from '#contract/plans/plans.ts'
import { formatBestChange, withDays } from '../../domain/plans/format-plan.ts'
import { addressTo, paths } from '../../paths.ts'
import { Empty } from '../../ui/empty.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { formatDay } from '../../words/format-day.ts'
import { counted } from '../../words/format-number.ts'

type Row = RetestPlanRows['unplaced'][number]

interface NotPlacedProps extends Pick<RetestPlanRows, 'unplaced' | 'bestChange'> {
  title: (code: string) => string
  today: string
}

/** Tests without a slot, and why; first the one change that would place most of them. */
export function NotPlaced({ unplaced, bestChange, title, today }: NotPlacedProps) {
  return (
    <Section title="Not placed" note={counted(unplaced.length, 'test')}>
      {bestChange && (
        <p className="plan-change">
          <b>{formatBestChange(bestChange, title, today)}</b>{' '}
          {bestChange.testDayId && (
            <Link className="no-print" href={addressTo(paths.testDay, { id: bestChange.testDayId })}>
              Add slots
            </Link>
          )}
          {bestChange.change === 'test day' && (
            <Link className="no-print" href={paths.testDays}>
              Add a test day
            </Link>
          )}
        </p>
      )}
      {unplaced.length === 0 && <Empty>Every open test has a slot.</Empty>}
      {unplaced.length > 0 && (
        <Table<Row>
          caption="Not placed"
          rows={unplaced}
          rowKey={({ wanted }) => wanted}
          columns={[
            {
              head: 'Candidate',
              cell: ({ candidateId, candidateName, unitName }) => (
                <>
                  <Link href={addressTo(paths.candidate, { id: candidateId })}>
                    <b>
                      <bdi>{candidateName}</bdi>
                    </b>
                  </Link>{' '}
                  <span className="muted plan-unit">{unitName}</span>
                </>
              ),
            },
            { head: 'Standard', bare: true, cell: ({ standard }) => title(standard) },
            { head: 'Due', tight: true, cell: ({ due }) => (due === null ? 'none set' : formatDay(due, today)) },
            { head: 'Why', cell: ({ detail }) => withDays(detail, today) },
          ]}
        />
      )}
    </Section>
  )
}
