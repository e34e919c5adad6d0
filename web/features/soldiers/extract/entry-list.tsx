import { FactLines } from '../../../ui/fact-lines.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { counted } from '../../../words/format-number.ts'
import { formatName, formatValueOf } from './format-extract.ts'

type Entry = Record<string, unknown>

/** Entries with more values than a table has room for stand one below the other. */
const MOST_COLUMNS = 9

/** All entries of one kind, with every value. */
export function EntryList({ name, rows }: { name: string; rows: readonly Entry[] }) {
  const title = formatName(name)
  const keys = Object.keys(rows[0]!)
  return (
    <Section title={title} note={counted(rows.length, 'entry', 'entries')} className="extract-list">
      {keys.length <= MOST_COLUMNS ? (
        <Table<Entry & { place: number }>
          caption={title}
          rows={rows.map((row, place) => ({ ...row, place }))}
          rowKey={({ place }) => String(place)}
          columns={keys.map((key) => ({
            head: formatName(key),
            cell: (row) => <bdi>{formatValueOf(key, row[key])}</bdi>,
          }))}
        />
      ) : (
        rows.map((row, place) => (
          <div key={String(row.id ?? place)} className="extract-entry">
            <FactLines
              facts={keys.map((key) => [formatName(key), <bdi key={key}>{formatValueOf(key, row[key])}</bdi>])}
            />
          </div>
        ))
      )}
    </Section>
  )
}
