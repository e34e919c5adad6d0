import { useSearch } from 'wouter'
import { Page } from '../../ui/page.tsx'
import { FindingControls } from './controls.tsx'
import { type FindingPath, FindingTabs } from './tabs.tsx'
import type { useFinding } from './use-finding.ts'

interface FindingPageProps {
  here: FindingPath
  title: string
  finding: ReturnType<typeof useFinding>
  /** Of the question behind the page. */
  query: { data: unknown; error: Error | null; refetch: () => unknown; isPlaceholderData: boolean }
  answer: React.ReactNode | undefined
  why: React.ReactNode | undefined
  withAttempts?: boolean
  /** First tests alone, unless others are chosen. */
  firstTests?: boolean
  /** Choices that only this page has. */
  choices?: React.ReactNode
  children: React.ReactNode
}

/** A page of findings: the tabs, the answer, the filters, then what the page is about. */
export function FindingPage({
  here,
  finding,
  query,
  withAttempts,
  firstTests,
  choices,
  children,
  ...words
}: FindingPageProps) {
  const { filters, setFilters, units, standards } = finding
  return (
    <>
      <FindingTabs here={here} search={useSearch()} />
      <Page
        {...words}
        error={query.data === undefined ? query.error : null}
        onRetry={query.refetch}
        busy={query.isPlaceholderData}
        controls={
          <>
            <FindingControls
              filters={filters}
              onChange={setFilters}
              units={units}
              standards={standards}
              withAttempts={withAttempts}
              firstTests={firstTests}
            />
            {choices}
          </>
        }
      >
        {children}
      </Page>
    </>
  )
}
