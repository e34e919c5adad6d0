import { useQuery } from '@tanstack/react-query'
import { agreementQuery, gradersQuery } from '../../api/findings/findings-deep.ts'
import { paths } from '../../paths.ts'
import { AgreementPart } from './agreement-part.tsx'
import { FindingPage } from './finding-page.tsx'
import { formatGraders, formatGradersWhy, gradersInOrder } from './format-graders.ts'
import { GradersPicture } from './graders-picture.tsx'
import { GradersTable } from './graders-table.tsx'
import { NoneFound } from './none-found.tsx'
import { RestsOn } from './rests-on.tsx'
import { useFinding } from './use-finding.ts'
import { VoidsPart } from './voids-part.tsx'

/** More rows than these are no picture any more; the list has them all. */
const DRAWN = 60

/** How strict each grader is, who was stricter on the same attempt, and how far graders agree. */
export default function GradersPage() {
  const finding = useFinding()
  const query = useQuery(gradersQuery(finding.filters))
  const agreement = useQuery(agreementQuery(finding.filters))
  const graders = query.data && gradersInOrder(query.data.items)
  const usual = query.data?.usualCorrect ?? null
  const drawn = graders?.filter(({ correct }) => correct !== null).slice(0, DRAWN) ?? []

  return (
    <FindingPage
      here={paths.graders}
      title="Graders"
      finding={finding}
      query={query}
      answer={graders && formatGraders(graders)}
      why={graders && formatGradersWhy(graders)}
    >
      {drawn.length > 0 && graders && <GradersPicture graders={graders} drawn={drawn} usual={usual} />}
      {graders && graders.length > 0 && <GradersTable graders={graders} usual={usual} />}
      {graders?.length === 0 && <NoneFound title="Graders">No counted test lies within these filters.</NoneFound>}
      <AgreementPart query={agreement} finding={finding} />
      <VoidsPart
        from={finding.filters.from || undefined}
        to={finding.filters.to || undefined}
        unitId={finding.filters.unitId || undefined}
      />
      {query.data && <RestsOn basis={query.data.basis} />}
    </FindingPage>
  )
}
