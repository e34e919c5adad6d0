import { useState } from 'react'
import { today } from '../words/today.ts'
import { Button } from './button.tsx'
import type { TableFormat } from './save-table.ts'
import type { readCells as ReadCells } from './table-cells.ts'
import type { Cell } from './to-csv.ts'

/** A list that is read page after page, as react-query keeps it. */
export interface Pages {
  hasNextPage: boolean
  fetchNextPage: () => Promise<Pages & { error: Error | null }>
}

type TableFilesProps = {
  caption: string
  /** Further pages, which are read before the table is saved. */
  pages?: Pages | undefined
} /** Of a table with facts: its rows as they are once every page is read. */ & (
  | { read: (readCells: typeof ReadCells) => Cell[][] | null }
  /** Of a list that is drawn otherwise: what it says as rows, its heads first. */
  | { rows: () => Cell[][] }
)

/** The table as a file, as it is seen: the same filters, columns and words, and every page of it. */
export function TableFiles({ caption, pages, ...from }: TableFilesProps) {
  const [state, setState] = useState<'' | 'busy' | 'failed'>('')
  const save = async (format: TableFormat) => {
    setState('busy')
    try {
      await readOn(pages)
      const [{ saveTable }, { readCells }] = await Promise.all([import('./save-table.ts'), import('./table-cells.ts')])
      await drawn()
      const rows = 'rows' in from ? from.rows() : from.read(readCells)
      if (rows) await saveTable(caption, dayShown(), format, rows)
      setState('')
    } catch {
      setState('failed')
    }
  }
  return (
    <p className="table-files no-print">
      {state === 'busy' ? 'Reading all of it …' : 'Save this list as'}
      {(['csv', 'xlsx'] as const).map((format) => (
        <Button
          key={format}
          kind="quiet"
          disabled={state === 'busy'}
          aria-label={`Save ${caption} as ${format.toUpperCase()}`}
          onClick={() => save(format)}
        >
          {format.toUpperCase()}
        </Button>
      ))}
      <span role="status">{state === 'failed' && 'It could not be read to its end. Try again.'}</span>
    </p>
  )
}

async function readOn(pages: Pages | undefined): Promise<void> {
  let at = pages
  while (at?.hasNextPage) {
    const next = await at.fetchNextPage()
    if (next.error) throw next.error
    at = next
  }
}

/** What was read stands on the screen after the next frame. */
const drawn = (): Promise<void> =>
  new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => resolve())))

/** The day the page is about, where its address names one; else today. */
const dayShown = (): string => new URLSearchParams(window.location.search).get('asOf') || today()
