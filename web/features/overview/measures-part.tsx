import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { measureFindingsQuery } from '../../api/findings.ts'
import { standardsQuery } from '../../api/standards.ts'
import { measureTitle, standardTitle } from '../../model/titles.ts'
import { Part } from '../../ui/part.tsx'
import { Section } from '../../ui/section.tsx'
import { sayWorstMeasure } from './say-overview.ts'
import { WorstMeasures } from './worst-measures.tsx'

/** Common failing measures since a day. */
export function MeasuresPart({ from }: { from: string }) {
  const findings = useQuery(measureFindingsQuery({ from }))
  const standards = useQuery(standardsQuery).data ?? []
  const measures = findings.data?.items
  const titleOf = ({ standard, measure }: { standard: string; measure: string }) =>
    measureTitle(standards, standard, measure)
  return (
    <Section
      title="Failing measures"
      note="last twelve months"
      more={<Link href={`/findings/measures?from=${from}`}>All measures</Link>}
    >
      <Part query={findings}>
        {measures && (
          <>
            <p className="part-answer">{sayWorstMeasure(measures, titleOf)}</p>
            <WorstMeasures
              measures={measures}
              titleOf={titleOf}
              standardOf={({ standard }) => standardTitle(standards, standard)}
            />
          </>
        )}
      </Part>
    </Section>
  )
}
