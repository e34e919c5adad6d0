import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { recordQuery, verificationQuery } from '../../api/record/record.ts'
import { formatAction, KIND_TITLES } from '../../domain/record/format-record.ts'
import { paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { Empty } from '../../ui/empty.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Tabs } from '../../ui/tabs.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatMoment } from '../../words/format-moment.ts'
import { today as todayIn } from '../../words/today.ts'
import { SoldierFilter } from './soldier-filter.tsx'
import './record.css'
import { EntriesTable } from './entries-table.tsx'
import { VerificationNotice } from './verification-notice.tsx'

const changeKinds = Object.keys(KIND_TITLES) as (keyof typeof KIND_TITLES)[]

/** The record of changes: who did what, when, from where, and why. */
export default function RecordPage() {
  const [filters, setFilters] = useFilters(['from', 'to', 'account', 'soldier', 'kind'])
  const isSignIns = filters.kind === 'sign-ins'
  const kind = isSignIns ? 'sign-ins' : (changeKinds.find((one) => one === filters.kind) ?? 'changes')
  const pages = useInfiniteQuery(
    recordQuery({
      from: filters.from || undefined,
      to: filters.to || undefined,
      account: filters.account.trim() || undefined,
      soldierId: (!isSignIns && filters.soldier) || undefined,
      kind,
    }),
  )
  const verification = useQuery(verificationQuery)
  const today = todayIn(null)
  const items = pages.data?.pages.flatMap((page) => page.items)
  const last = items?.[0]
  return (
    <Page
      title="Record"
      answer={
        last
          ? `${formatAction(last.action)}: the latest entry, ${formatMoment(last.at, today)}.`
          : items && 'Nothing is on record here.'
      }
      why="Every change is here with who made it, from where, and why. Entries are never changed or deleted, and each is chained to the one before; where a soldier’s personal data was removed, an entry is left without it and says so."
      error={items ? null : pages.error}
      onRetry={pages.refetch}
      controls={
        <>
          {!isSignIns && (
            <>
              <SoldierFilter id={filters.soldier} onSoldier={(soldier) => setFilters({ soldier })} />
              <SelectField
                label="Kind of change"
                value={filters.kind}
                onChange={(event) => setFilters({ kind: event.target.value })}
              >
                <option value="">All but sign-ins</option>
                {changeKinds.map((one) => (
                  <option key={one} value={one}>
                    {KIND_TITLES[one]}
                  </option>
                ))}
              </SelectField>
            </>
          )}
          <DateField label="From" value={filters.from} onDay={(from) => setFilters({ from })} />
          <DateField label="To" value={filters.to} onDay={(to) => setFilters({ to })} />
          <TextField
            label="Account"
            value={filters.account}
            onChange={(event) => setFilters({ account: event.target.value })}
          />
          <Button onClick={() => verification.refetch()} disabled={verification.isFetching}>
            {verification.isFetching ? 'Checking the record …' : 'Verify the record'}
          </Button>
        </>
      }
    >
      <Tabs
        label="What is on record"
        tabs={[
          { to: paths.record, text: 'Changes', isHere: !isSignIns },
          { to: `${paths.record}?kind=sign-ins`, text: 'Sign-ins', isHere: isSignIns },
        ]}
      />
      {verification.data && <VerificationNotice found={verification.data} />}
      {items && (
        <Section title="Entries" note="the newest first">
          {items.length === 0 ? (
            <Empty>
              <p>No entry fits. Widen the days, or clear what else is chosen.</p>
            </Empty>
          ) : (
            <EntriesTable
              items={items}
              pages={pages}
              caption={isSignIns ? 'Sign-ins' : 'Record of changes'}
              today={today}
            />
          )}
          <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
            Show earlier entries
          </More>
        </Section>
      )}
    </Page>
  )
}
