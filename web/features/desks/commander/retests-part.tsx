import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { retestsQuery } from '../../../api/readiness/retests.ts'
import { DueMarks } from '../../../charts/due-marks.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { Part } from '../../../ui/part.tsx'
import { Section } from '../../../ui/section.tsx'
import { counted } from '../../../words/format-number.ts'

interface RetestsPartProps {
  filters: { unitId?: string | undefined; certification?: string | undefined }
  today: string
}

/** How many retests are open, and when they are due. */
export function RetestsPart({ filters, today }: RetestsPartProps) {
  const retests = useQuery(retestsQuery(filters.unitId ? { unitId: filters.unitId } : {}))
  const backlog = retests.data?.filter(
    ({ certification }) => !filters.certification || certification === filters.certification,
  )
  return (
    <Section
      title="Retests open"
      note="by the week they are due"
      more={<Link href={addressTo(paths.retests, { unitId: filters.unitId ?? '' })}>All retests</Link>}
    >
      <Part query={retests}>
        {backlog && (
          <>
            <p className="part-answer">
              {backlog.length === 0
                ? 'No retest is open.'
                : `${counted(backlog.length, 'retest')} open, ${backlog.filter(({ pastDue }) => pastDue).length} past due.`}
            </p>
            {backlog.length > 0 && <DueMarks due={backlog.map(({ due }) => due)} today={today} />}
          </>
        )}
      </Part>
    </Section>
  )
}
