import { useInfiniteQuery } from '@tanstack/react-query'
import type { Standard } from '#contract/standards/standards.ts'
import { sheetsQuery } from '../../api/sheets/sheets.ts'
import { versionsOf } from '../../domain/standards/titles.ts'
import { More } from '../../ui/more.tsx'
import { Section } from '../../ui/section.tsx'
import { attemptRows } from './attempt-rows.ts'
import { AttemptsTable } from './attempts-table.tsx'

interface PracticeSectionProps {
  candidateId: string
  standard: string
  standards: readonly Standard[]
  today: string
  /** Sheets on this device that the server does not have yet. */
  unsent: React.ReactNode
  more: React.ReactNode
}

/** Practice sheets, apart from the tests: they enter no status and no figure. */
export function PracticeSection({ candidateId, standard, standards, today, unsent, more }: PracticeSectionProps) {
  const pages = useInfiniteQuery(sheetsQuery({ soldierId: candidateId, purpose: 'practice' }))
  const sheets = pages.data?.pages.flatMap(({ items }) => items).filter(({ body }) => body.standard === standard) ?? []
  const measures = versionsOf(standards, standard)[0]?.minors ?? []
  return (
    <>
      {unsent}
      <Section title="Practice" note="counts for nothing and is in no figure" more={more}>
        {sheets.length === 0 ? (
          <p className="muted">No practice sheet of this standard{pages.hasNextPage ? ' among the latest' : ''}.</p>
        ) : (
          <AttemptsTable rows={attemptRows(sheets, standards, measures)} measures={measures} today={today} />
        )}
        <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
          Show earlier practice
        </More>
      </Section>
    </>
  )
}
