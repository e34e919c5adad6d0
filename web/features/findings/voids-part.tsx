import { useQuery } from '@tanstack/react-query'
import type { VoidFindings } from '#contract/findings/voids.ts'
import { voidsQuery } from '../../api/findings/findings-deep.ts'
import { soldierFacts } from '../../parts/readiness/facts.ts'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { formatVoids } from './format-voids.ts'

interface VoidsPartProps {
  from?: string | undefined
  to?: string | undefined
  unitId?: string | undefined
}

/** Tests that each grader made void; those that came after a failure are held for the office. */
export function VoidsPart({ from, to, unitId }: VoidsPartProps) {
  const voids = useQuery(voidsQuery({ from, to, unitId })).data
  if (!voids) return null
  return (
    <Section title="Void tests" note="by who graded them, by name">
      <p>{formatVoids(voids)}</p>
      {voids.length > 0 && (
        <Table<VoidFindings['items'][number]>
          caption="Void tests by grader"
          rows={voids}
          rowKey={({ graderId }) => graderId}
          columns={[
            { head: 'Grader', facts: soldierFacts(), cell: ({ grade, name }) => <bdi>{`${grade} ${name}`}</bdi> },
            { head: 'Void', numeric: true, cell: (one) => one.voids },
            { head: 'After a failure', numeric: true, cell: ({ afterFailure }) => afterFailure },
          ]}
        />
      )}
    </Section>
  )
}
