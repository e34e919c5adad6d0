import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { RecordItem } from '#contract/record/record.ts'
import { recordQuery, verificationQuery } from '../../api/record/record.ts'
import { formatAction, formatAuthor, formatVerification, KIND_TITLES } from '../../domain/record/format-record.ts'
import { fact, momentFact } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { DateField } from '../../ui/date-field.tsx'
import { Empty } from '../../ui/empty.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { More } from '../../ui/more.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import { Tabs } from '../../ui/tabs.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { formatMoment } from '../../words/format-moment.ts'
import { today as todayIn } from '../../words/today.ts'
import { SoldierFilter } from './soldier-filter.tsx'
import './record.css'

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
      {verification.data && (
        <Notice kind={verification.data.whole ? 'good' : 'bad'}>
          <p>{formatVerification(verification.data)}</p>
          {verification.data.problems.map(({ seq, detail }) => (
            <p key={`${seq} ${detail}`}>{detail}</p>
          ))}
          <p className="small record-hash">
            It ends with {verification.data.lastHash}. Note this elsewhere to see later that its end was not cut off.
          </p>
        </Notice>
      )}
      {items && (
        <Section title="Entries" note="the newest first">
          {items.length === 0 ? (
            <Empty>
              <p>No entry fits. Widen the days, or clear what else is chosen.</p>
            </Empty>
          ) : (
            <Table<RecordItem>
              caption={isSignIns ? 'Sign-ins' : 'Record of changes'}
              pages={pages}
              rows={items}
              rowKey={({ seq }) => String(seq)}
              columns={[
                { head: 'No.', tight: true, cell: ({ seq }) => seq },
                {
                  head: 'When',
                  facts: [momentFact('When', ({ at }) => at)],
                  tight: true,
                  cell: ({ at }) => formatMoment(at, today),
                },
                { head: 'Who', cell: (item) => <bdi>{formatAuthor(item)}</bdi> },
                { head: 'From', tight: true, cell: ({ address }) => address ?? '–' },
                {
                  head: 'What',
                  facts: [
                    fact('What', ({ action }) => formatAction(action)),
                    fact('About', ({ subjectKind }) => subjectKind),
                    fact('Id', ({ subjectId }) => subjectId),
                    fact('Why', ({ reason }) => reason),
                  ],
                  bare: true,
                  cell: (item) => <What item={item} />,
                },
              ]}
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

function What({ item }: { item: RecordItem }) {
  const { action, subjectKind, subjectId, reason, before, after, emptied } = item
  return (
    <>
      <b>{formatAction(action)}</b>
      {subjectKind === 'sheet' && subjectId && <Link href={addressTo(paths.sheet, { id: subjectId })}> the sheet</Link>}
      {reason && (
        <span className="record-reason">
          <bdi>{reason}</bdi>
        </span>
      )}
      {emptied.includes('what') && (
        <span className="record-reason muted">
          Before, after and reason were taken out with a soldier’s personal data.
        </span>
      )}
      {(before != null || after != null) && (
        <details>
          <summary>Before and after</summary>
          <pre className="record-data">{JSON.stringify({ before, after }, null, 1)}</pre>
        </details>
      )}
    </>
  )
}
