import { Link } from 'wouter'
import type { RecordItem } from '#contract/record/record.ts'
import { formatAction, formatAuthor } from '../../domain/record/format-record.ts'
import { fact, momentFact } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { Table } from '../../ui/table.tsx'
import type { Pages } from '../../ui/table-files.tsx'
import { formatMoment } from '../../words/format-moment.ts'

interface EntriesTableProps {
  items: readonly RecordItem[]
  pages: Pages
  caption: string
  today: string
}

/** Entries of the record, each with who, when, from where, what and why. */
export function EntriesTable({ items, pages, caption, today }: EntriesTableProps) {
  return (
    <Table<RecordItem>
      caption={caption}
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
