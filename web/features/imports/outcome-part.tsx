import { useInfiniteQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { Import, ImportRow, RowOutcome } from '#contract/imports/imports.ts'
import { importRowsQuery, refusedAddress, storeImport } from '../../api/imports/imports.ts'
import { fact } from '../../parts/readiness/facts.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { Empty } from '../../ui/empty.tsx'
import { More } from '../../ui/more.tsx'
import { Section } from '../../ui/section.tsx'
import { Table } from '../../ui/table.tsx'
import type { Pages } from '../../ui/table-files.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { figure } from '../../words/format-number.ts'
import { formatStoring, OUTCOME_NAMES } from './format-import.ts'
import { OutcomeMark } from './outcome-mark.tsx'

interface OutcomePartProps {
  job: Import
  onBegun: () => void
}

/** What becomes of every row, and the way to store them. */
export function OutcomePart({ job, onBegun }: OutcomePartProps) {
  const [filters, setFilters] = useFilters(['outcome'])
  const [asking, setAsking] = useState(false)
  const outcome = OUTCOME_NAMES.find((name) => name === filters.outcome)
  const pages = useInfiniteQuery(importRowsQuery(job.id, outcome))
  const rows = pages.data?.pages.flatMap(({ items }) => items)
  const counts = job.counts!
  const isStored = job.state === 'stored'
  const news = counts.added + counts.changed + counts.held
  return (
    <Section
      title={isStored ? 'Outcome of the rows' : 'What becomes of the rows'}
      more={
        counts.refused > 0 && (
          <a href={refusedAddress(job.id)} download>
            The refused rows with why
          </a>
        )
      }
    >
      {job.newUnits.length > 0 && (
        <details className="import-units">
          <summary>
            {job.newUnits.length === 1 ? 'One unit' : `${figure(job.newUnits.length)} units`}{' '}
            {isStored ? 'were added' : 'will be added'}
          </summary>
          <ul>
            {job.newUnits.map((path) => (
              <li key={path}>{path}</li>
            ))}
          </ul>
        </details>
      )}
      <OutcomeChoice counts={counts} chosen={outcome} onChoose={(chosen) => setFilters({ outcome: chosen })} />
      {rows?.length === 0 ? (
        <Empty>
          <p>No row matches.</p>
        </Empty>
      ) : (
        <RowsTable rows={rows ?? []} pages={pages} />
      )}
      <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={() => pages.fetchNextPage()}>
        More rows
      </More>
      {job.state === 'checked' && (
        <div className="import-store">
          <Button kind="main" disabled={news === 0} onClick={() => setAsking(true)}>
            {counts.refused === 0 ? 'Store it' : `Store ${figure(news)}, leave ${figure(counts.refused)} out`}
          </Button>
          <p>{formatStoring(job)}</p>
        </div>
      )}
      {asking && (
        <ConfirmDialog
          title={`Store ${job.fileName}?`}
          confirm="Store it"
          onConfirm={() => storeImport(job.id, counts.refused > 0).then(onBegun)}
          onClose={() => setAsking(false)}
        >
          <p>{formatStoring(job)}</p>
          <p>All of that is stored, or nothing. It goes into the record of changes.</p>
        </ConfirmDialog>
      )}
    </Section>
  )
}

function RowsTable({ rows, pages }: { rows: readonly ImportRow[]; pages: Pages }) {
  return (
    <Table<ImportRow>
      caption="What becomes of the rows"
      pages={pages}
      rows={rows}
      rowKey={({ number }) => String(number)}
      columns={[
        { head: 'Row', cell: ({ number }) => number, numeric: true, tight: true },
        {
          head: 'Outcome',
          facts: [fact('Outcome', ({ outcome: became }) => became)],
          cell: (row) => <OutcomeMark outcome={row.outcome} />,
          bare: true,
          tight: true,
        },
        { head: 'About', facts: [fact('About', ({ about }) => about)], cell: ({ about }) => about },
        {
          head: 'Why, or what changes',
          facts: [
            fact('Why, or what changes', ({ reasons }) => reasons[0]),
            fact('Further reasons', ({ reasons }) => reasons.slice(1).join('; ')),
          ],
          cell: ({ reasons }) => reasons.join(' · '),
          bare: true,
        },
      ]}
    />
  )
}

interface OutcomeChoiceProps {
  counts: NonNullable<Import['counts']>
  chosen: RowOutcome | undefined
  onChoose: (outcome: RowOutcome | '') => void
}

function OutcomeChoice({ counts, chosen, onChoose }: OutcomeChoiceProps) {
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset is for a form, these narrow a list
    <div className="import-outcomes" role="group" aria-label="Rows shown">
      {([undefined, ...OUTCOME_NAMES] as (RowOutcome | undefined)[]).map((name) => (
        <Button
          key={name ?? 'all'}
          kind="plain"
          aria-pressed={chosen === name}
          disabled={name !== undefined && counts[name] === 0}
          onClick={() => onChoose(name ?? '')}
        >
          {name ? <OutcomeMark outcome={name} /> : 'All'}{' '}
          {figure(name ? counts[name] : Object.values(counts).reduce((a, b) => a + b, 0))}
        </Button>
      ))}
    </div>
  )
}
