import { useQuery } from '@tanstack/react-query'
import type { ImportColumns } from '#contract/imports/imports.ts'
import { listsQuery } from '../../api/soldiers/arms-and-grades.ts'
import { carriesArms } from '../../domain/soldiers/carries-arms.ts'
import { Table } from '../../ui/table.tsx'

type Column = ImportColumns['columns'][number]

const HOW: Readonly<Record<NonNullable<Column['how']>, string>> = {
  known: 'by its label',
  alike: 'its label is similar: check it',
  remembered: 'as last time',
  chosen: 'as you chose',
}

interface ColumnsTableProps {
  columns: ImportColumns
  onChoose: (key: string, index: number | null) => void
}

/** Asked about only where somebody carries something, or the file has them. */
const OF_ARMS: readonly string[] = ['arm', 'arms']

/** What each column is taken for, with the first things in it, so that a wrong one shows. */
export function ColumnsTable({ columns: { columns, file }, onChoose }: ColumnsTableProps) {
  const carries = carriesArms(useQuery(listsQuery).data)
  return (
    <Table
      caption="How the columns of the file are read"
      rows={columns.filter(({ key, index }) => carries || index !== null || !OF_ARMS.includes(key))}
      rowKey={({ key }) => key}
      columns={[
        {
          head: 'What is wanted',
          cell: ({ title, hint, needed }) => (
            <>
              {title}
              {needed && <span className="import-needed"> needed</span>}
              <span className="import-hint">{hint}</span>
            </>
          ),
        },
        {
          head: 'Column of the file',
          cell: ({ key, title, index }) => (
            <select
              aria-label={`Column for ${title}`}
              value={index ?? ''}
              onChange={(event) => onChoose(key, event.target.value === '' ? null : Number(event.target.value))}
            >
              <option value="">none</option>
              {file.map(({ label }, at) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: the place is what a column is
                <option key={at} value={at}>
                  {label || `column ${at + 1}`}
                </option>
              ))}
            </select>
          ),
        },
        { head: 'Why', cell: ({ how, needed }) => (how ? HOW[how] : needed ? 'choose one' : ''), tight: 'wide' },
        {
          head: 'In it',
          cell: ({ index }) => (index === null ? '' : (file[index]?.samples.slice(0, 3).join(' · ') ?? '')),
          className: 'import-samples',
        },
      ]}
    />
  )
}
