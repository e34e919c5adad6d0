import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { retestsQuery } from '../../api/retests.ts'
import { DueMarks } from '../../charts/due-marks.tsx'
import { Part } from '../../ui/part.tsx'
import { Section } from '../../ui/section.tsx'
import { sayRetestBacklog } from './say-overview.ts'

/** The backlog of retests by the week they are due. */
export function RetestsPart({ today }: { today: string }) {
  const retests = useQuery(retestsQuery())
  return (
    <Section title="Retests" note="by the week they are due" more={<Link href="/retests">All retests</Link>}>
      <Part query={retests}>
        {retests.data && (
          <>
            <p className="part-answer">{sayRetestBacklog(retests.data)}</p>
            {retests.data.length > 0 && <DueMarks due={retests.data.map(({ due }) => due)} today={today} />}
          </>
        )}
      </Part>
    </Section>
  )
}
