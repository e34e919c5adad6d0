import { type Cell, faultsAt, isMajor, markAt } from './cells.ts'
import type { Draft } from './draft.ts'

interface MarkCellProps {
  draft: Draft
  cell: Cell
  title: string
  /** The place the next mark goes to. */
  here: boolean
  /** The place that faults and readings go to. */
  target: boolean
  beyondEnd: boolean
  problem: string | undefined
  onKey: (key: string) => boolean
  onPlace: () => void
}

const MAJOR_WORDS = { correct: 'GO', incorrect: 'NO-GO' }

/** One place that takes a mark. */
export function MarkCell({ draft, cell, title, here, target, beyondEnd, problem, onKey, onPlace }: MarkCellProps) {
  const value = markAt(draft, cell)
  const blank = beyondEnd ? 'not reached' : 'blank'
  const word = value === null ? blank : isMajor(cell) ? MAJOR_WORDS[value] : value
  const faults = faultsAt(draft, cell).length
  const name = isMajor(cell) ? title : `${title}, trial ${cell.trial}`
  return (
    <td
      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a cell of a table that is a grid
      role="gridcell"
      tabIndex={here ? 0 : -1}
      aria-label={[`${name}: ${word}`, faults > 0 ? `${faults} noted` : '', problem ?? ''].filter(Boolean).join(', ')}
      aria-selected={here}
      aria-invalid={problem ? true : undefined}
      className={[
        'mark-cell',
        isMajor(cell) ? 'mark-major' : '',
        value ? `mark-${value}` : '',
        beyondEnd ? 'mark-beyond' : '',
        target ? 'mark-target' : '',
      ].join(' ')}
      onClick={onPlace}
      onKeyDown={(event) => {
        if (event.ctrlKey || event.metaKey || event.altKey) return
        if (onKey(event.key)) event.preventDefault()
      }}
    >
      {isMajor(cell) ? value && MAJOR_WORDS[value] : <i aria-hidden="true" />}
    </td>
  )
}
