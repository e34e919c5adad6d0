import type { UseQueryResult } from '@tanstack/react-query'
import type { AgreementFindings } from '#contract/findings/agreement.ts'
import { Failure } from '../../ui/failure.tsx'
import { Section } from '../../ui/section.tsx'
import { AgreementPicture } from './agreement-picture.tsx'
import { AgreementTable } from './agreement-table.tsx'
import { formatTwiceGraded } from './format-graders.ts'
import { NoneFound } from './none-found.tsx'
import type { useFinding } from './use-finding.ts'

interface AgreementPartProps {
  query: UseQueryResult<AgreementFindings>
  finding: ReturnType<typeof useFinding>
}

/** How far graders agree on attempts graded twice: on whole tests and on each measure. */
export function AgreementPart({ query, finding }: AgreementPartProps) {
  const { data, error, refetch } = query
  if (error && !data) {
    return (
      <Section title="Graded twice">
        <Failure error={error} onRetry={refetch} />
      </Section>
    )
  }
  if (!data) return null
  const items = data.items.filter(({ attempts }) => attempts > 0)
  if (items.length === 0) return <NoneFound title="Graded twice">{formatTwiceGraded(data)}</NoneFound>
  const named = items.map((item) => ({
    ...item,
    standardName: finding.standardOf(item),
    name:
      item.measure === null
        ? `Whole test, ${finding.standardOf(item)}`
        : finding.titleOf({ ...item, measure: item.measure }),
  }))
  return (
    <>
      <AgreementPicture items={named} says={formatTwiceGraded(data)} />
      <AgreementTable items={named} />
    </>
  )
}
