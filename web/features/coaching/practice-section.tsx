import { useInfiniteQuery } from '@tanstack/react-query'
import type { Standard } from '#contract/standards/standards.ts'
import { practicesQuery } from '../../api/coaching/practices.ts'
import { sheetsQuery } from '../../api/sheets/sheets.ts'
import { versionsOf } from '../../domain/standards/titles.ts'
import { More } from '../../ui/more.tsx'
import { Section } from '../../ui/section.tsx'
import { attemptRows } from './attempt-rows.ts'
import { AttemptsTable } from './attempts-table.tsx'
import { PracticeList } from './practice-list.tsx'

interface PracticeSectionProps {
  candidateId: string
  standard: string
  standards: readonly Standard[]
  today: string
  /** Sheets on this device that the server does not have yet. */
  unsent: React.ReactNode
  more: React.ReactNode
}

/** Practice, by the sheet and of chosen measures, apart from the tests: it enters no status and no figure. */
export function PracticeSection({ candidateId, standard, standards, today, unsent, more }: PracticeSectionProps) {
  const pages = useInfiniteQuery(sheetsQuery({ soldierId: candidateId, purpose: 'practice' }))
  const sheets = pages.data?.pages.flatMap(({ items }) => items).filter(({ body }) => body.standard === standard) ?? []
  const chosen = useInfiniteQuery(practicesQuery(candidateId))
  const practices = chosen.data?.pages.flatMap(({ items }) => items).filter((one) => one.standard === standard) ?? []
  const measures = versionsOf(standards, standard)[0]?.minors ?? []
  return (
    <>
      {unsent}
      <Section title="Practice" note="counts for nothing and is in no figure" more={more}>
        {sheets.length === 0 ? (
          <p className="muted">
            {practices.length > 0 ? 'No practice sheet of the whole' : 'No practice sheet of this'} standard
            {pages.hasNextPage ? ' among the latest' : ''}.
          </p>
        ) : (
          <AttemptsTable rows={attemptRows(sheets, standards, measures)} measures={measures} today={today} />
        )}
        <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
          Show earlier practice
        </More>
        {practices.length > 0 && (
          <>
            <h3>Chosen measures</h3>
            <PracticeList practices={practices} standards={standards} today={today} />
          </>
        )}
        <More hasMore={chosen.hasNextPage} loading={chosen.isFetchingNextPage} onMore={chosen.fetchNextPage}>
          Show earlier practice of chosen measures
        </More>
      </Section>
    </>
  )
}
