import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { SecondGrading } from '#contract/sheets/second-gradings.ts'
import { secondGradingsQuery } from '../../../api/sheets/second-gradings.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { standardTitle } from '../../../domain/standards/titles.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { dayFact, fact } from '../../../parts/readiness/facts.ts'
import { Empty } from '../../../ui/empty.tsx'
import { SelectField } from '../../../ui/field.tsx'
import { More } from '../../../ui/more.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { useFilters } from '../../../ui/use-filters.ts'
import { formatDay } from '../../../words/format-day.ts'
import { capital, inWords, plural } from '../../../words/format-number.ts'
import { today as todayIn } from '../../../words/today.ts'
import { DuplicatesPart } from './duplicates-part.tsx'
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
  const more = query.hasNextPage ? ' so far' : ''
  return (
    <Page
      title="Graded by two"
      answer={
        pairs &&
        (differing
          ? `${capital(inWords(pairs.length))} ${plural(pairs.length, 'attempt')}${more} on which two graders came to different outcomes.`
          : `${capital(inWords(pairs.length))} ${plural(pairs.length, 'attempt')}${more} graded by two.`)
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
          <Table<SecondGrading>
            caption="Attempts graded by two"
            pages={query}
            rows={pairs}
            rowKey={({ second }) => second.sheetId}
            columns={[
              {
                head: 'Day',
                facts: [dayFact('Day', ({ day }) => day)],
                tight: true,
                cell: ({ day }) => formatDay(day, today),
              },
              {
                head: 'Candidate',
                facts: [fact('Candidate', ({ candidate }) => candidate)],
                bare: true,
                cell: ({ candidate, second }) => (
                  <Link
                    href={`?${new URLSearchParams({ ...(differing ? {} : { show: 'all' }), sheet: second.sheetId })}`}
                  >
                    <b>
                      <bdi>{candidate}</bdi>
                    </b>
                  </Link>
                ),
              },
              { head: 'Standard', bare: true, cell: ({ standard }) => standardTitle(standards, standard) },
              {
                head: 'First',
                facts: [
                  fact('First outcome', ({ first }) => first.outcome),
                  fact('First grader', ({ first }) => first.grader),
                ],
                cell: ({ first }) => `${first.outcome}, ${first.grader}`,
              },
              {
                head: 'Second',
                facts: [
                  fact('Second outcome', ({ second }) => second.outcome),
                  fact('Second grader', ({ second }) => second.grader),
                ],
                cell: ({ second }) => `${second.outcome}, ${second.grader}`,
              },
              {
                head: 'Together',
                facts: [fact('They differ', ({ differs }) => (differs ? 'yes' : 'no'))],
                bare: true,
                cell: ({ differs }) => (differs ? 'they differ' : 'the same outcome'),
              },
            ]}
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
