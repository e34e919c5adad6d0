import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { useAccount } from '../../device/store/use-account.ts'
import { studyQuery } from '../../device/store/use-study.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Page } from '../../ui/page.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatKeptSince, formatStudy, formatStudyWhy } from './format-study.ts'
import { StudyPaper } from './study-paper.tsx'

/** What to learn of a standard on one sheet, on screen, on paper and without a network; for a candidate with their own faults. */
export default function StudyPage({ id }: { id: string }) {
  const [filters] = useFilters(['candidate'])
  const account = useAccount()
  const { candidate } = filters
  const query = useQuery({
    ...studyQuery(account?.accountId ?? '', id, candidate),
    enabled: account !== undefined && account !== null,
  })
  const found = query.data
  if (!found) return <Page title="Study sheet" error={query.error} onRetry={query.refetch} />
  const { sheet, keptSince } = found
  return (
    <Page
      title={`Study sheet: ${sheet.standard.title}`}
      compact
      answer={<bdi>{formatStudy(sheet)}</bdi>}
      why={[formatStudyWhy(sheet), formatKeptSince(keptSince, sheet.asOf)].filter(Boolean).join(' ')}
      controls={
        <>
          {sheet.candidate && (
            <Link href={addressTo(paths.candidate, { id: sheet.candidate.id, standard: id })}>Attempts and drill</Link>
          )}
          <Link href={addressTo(paths.standard, { id })}>The standard in full</Link>
          <Button kind="main" onClick={() => window.print()}>
            Print
          </Button>
        </>
      }
    >
      <StudyPaper sheet={sheet} />
    </Page>
  )
}
