import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { duplicatesQuery } from '../../../api/sheets/duplicates.ts'
import { secondGradingsQuery } from '../../../api/sheets/second-gradings.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { standardTitle } from '../../../domain/standards/titles.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { Empty } from '../../../ui/empty.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { More } from '../../../ui/more.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { today as todayIn } from '../../../words/today.ts'
import { DuplicatesPart } from './duplicates-part.tsx'
import { formatGradedByTwo } from './format-duplicates.ts'
import { PairsTable } from './pairs-table.tsx'
import { SideBySide } from './side-by-side.tsx'

/** Attempts that two graders graded independently, and where they saw it differently. */
export default function TwiceGradedPage() {
  const [filters, setFilters] = useFilters(['show', 'sheet'])
  const differing = filters.show !== 'all'
  const query = useInfiniteQuery(secondGradingsQuery(differing))
  const standards = useQuery(standardsQuery).data ?? []
  const pairs = query.data?.pages.flatMap(({ items }) => items)
  const open = pairs?.find(({ second }) => second.sheetId === filters.sheet)
  const today = todayIn()
  const sentTwice = useQuery(duplicatesQuery)
  const duplicates = sentTwice.data ?? (sentTwice.isError ? [] : undefined)
  return (
    <Page
      title="Graded by two"
      answer={
        pairs &&
        duplicates &&
        formatGradedByTwo(pairs.length, { differing, isMore: query.hasNextPage, duplicates: duplicates.length })
      }
      why="The first grader’s sheet counts. Where they differ, talk to both; the sheet can be amended with a reason."
      error={pairs ? null : query.error}
      onRetry={query.refetch}
      controls={
        <SelectField
          label="Show"
          value={differing ? 'differing' : 'all'}
          onChange={(event) => setFilters({ show: event.target.value === 'all' ? 'all' : '', sheet: '' })}
        >
          <option value="differing">different outcomes</option>
          <option value="all">all</option>
        </SelectField>
      }
    >
      <DuplicatesPart titleOf={(code) => standardTitle(standards, code)} today={today} />
      {pairs?.length === 0 && (
        <Empty>
          {differing ? 'Wherever two graded, they came to the same outcome.' : 'No attempt was graded by two yet.'} A
          second grader is named on a test day, on the line.
          <FilledBy steps={['test-days']} />
        </Empty>
      )}
      {open && <SideBySide pair={open} title={standardTitle(standards, open.standard)} standards={standards} />}
      {pairs && pairs.length > 0 && (
        <Section title="Attempts" note="latest first">
          <PairsTable
            pairs={pairs}
            pages={query}
            standards={standards}
            today={today}
            addressOf={(sheet) => `?${new URLSearchParams({ ...(differing ? {} : { show: 'all' }), sheet })}`}
          />
          <More
            hasMore={query.hasNextPage}
            loading={query.isFetchingNextPage}
            onMore={() => void query.fetchNextPage()}
          >
            Show more
          </More>
        </Section>
      )}
    </Page>
  )
}
