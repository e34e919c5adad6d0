import { useQuery } from '@tanstack/react-query'
import type { Comparison } from '#contract/standards/standards.ts'
import { comparisonQuery } from '../../api/standards/standards.ts'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { capital } from '../../words/format-number.ts'

type Change = Comparison['changes'][number]

/** What is otherwise than in the version before. */
export function ComparisonSection({ id, note }: { id: string; note?: string | undefined }) {
  const query = useQuery(comparisonQuery(id))
  const comparison = query.data
  if (comparison?.with === null) return null
  const title = comparison ? `What differs from version ${comparison.with}` : 'What differs from before'
  return (
    <Section title={title} note={note}>
      {query.error && <Failure error={query.error} onRetry={query.refetch} />}
      {comparison?.changes.length === 0 && (
        <Empty>
          <p>It tests the same in the same way.</p>
        </Empty>
      )}
      {comparison && comparison.changes.length > 0 && (
        <Table<Change>
          caption={title}
          rows={comparison.changes}
          rowKey={({ part, what, before, after }) => `${part} ${what} ${before} ${after}`}
          columns={[
            { head: 'What', cell: ({ what }) => <b>{what}</b> },
            { head: 'Part', bare: true, cell: ({ part }) => capital(part) },
            { head: 'Before', cell: ({ before }) => before ?? 'not there' },
            { head: 'Now', cell: ({ after }) => after ?? 'no longer there' },
          ]}
        />
      )}
    </Section>
  )
}
