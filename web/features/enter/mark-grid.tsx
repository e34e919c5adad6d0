import type { Standard } from '#contract/standards.ts'
import type { SheetScore } from '#scoring/types.ts'
import { useEffect, useRef } from 'react'
import { type Cell, cellsOf, faultsAt, isMajor, markAt } from './cells.ts'
import { CallField } from './call-field.tsx'
import { cellKey } from './place-problems.ts'
import { sayNoted } from './say-noted.ts'
import type { Marking } from './key-marking.ts'
import './mark-grid.css'

interface MarkGridProps {
  standard: Standard
  marking: Marking
  target: number | null
  score: SheetScore
  wrong: Readonly<Record<string, string>>
  beyondEnd: (cell: Cell) => boolean
  /** Counts up each time the grid is to take the focus. */
  focusCount: number
  onKey: (key: string) => boolean
  onPlace: (at: number) => void
  onAtCall: (code: string, typed: string) => void
  onAtCallDone: () => void
}

const MAJOR_WORDS = { correct: 'GO', incorrect: 'NO-GO' }

/** The sheet line by line in the order of the standard; the keyboard marks it, see `pressKey`. */
export function MarkGrid(props: MarkGridProps) {
  const { standard, marking, target, score, wrong, beyondEnd, focusCount, onKey, onPlace, onAtCall, onAtCallDone } = props
  const grid = useRef<HTMLDivElement>(null)
  const cells = cellsOf(standard)
  const at = Math.min(marking.at, cells.length - 1)

  useEffect(() => {
    if (focusCount > 0) grid.current?.querySelector<HTMLElement>('[tabindex="0"]')?.focus()
  }, [focusCount])
  // The focus follows the place while it is within the grid's own cells.
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs when the place changes
  useEffect(() => {
    if (document.activeElement?.matches('[role=gridcell]') && grid.current?.contains(document.activeElement)) {
      grid.current.querySelector<HTMLElement>('[tabindex="0"]')?.focus()
    }
  }, [at])

  const outcomeOf = (code: string) => {
    const minor = score.minors.find((one) => one.code === code)
    return minor?.outcome ?? (minor && minor.correct + minor.incorrect > 0 ? 'open' : '')
  }
  const renderCell = (cell: Cell, index: number, title: string) => {
    const value = markAt(marking.draft, cell)
    const beyond = beyondEnd(cell)
    const problem = wrong[cellKey(cell)]
    const word = value === null ? (beyond ? 'not reached' : 'blank') : isMajor(cell) ? MAJOR_WORDS[value] : value
    const faults = faultsAt(marking.draft, cell).length
    return (
      <div
        key={cellKey(cell)}
        role="gridcell"
        tabIndex={index === at ? 0 : -1}
        aria-label={`${title}${isMajor(cell) ? '' : `, trial ${cell.trial}`}: ${word}${faults > 0 ? `, ${faults} noted` : ''}${problem ? `. ${problem}` : ''}`}
        aria-selected={index === at}
        aria-invalid={problem ? true : undefined}
        className={[
          'mark-cell',
          isMajor(cell) ? 'mark-major' : '',
          value ? `mark-${value}` : '',
          beyond ? 'mark-beyond' : '',
          index === target ? 'mark-target' : '',
        ].join(' ')}
        onClick={() => onPlace(index)}
        onKeyDown={(event) => {
          if (event.ctrlKey || event.metaKey || event.altKey) return
          if (onKey(event.key)) event.preventDefault()
        }}
      >
        {isMajor(cell) ? value && MAJOR_WORDS[value] : <i aria-hidden="true" />}
      </div>
    )
  }

  let index = -1
  const row = (code: string, title: string, places: Cell[], outcome: string, number: number | null) => {
    const problems = places.flatMap((cell) => wrong[cellKey(cell)] ?? [])
    const active = places.some((cell) => cells[at]?.code === cell.code)
    const noted = sayNoted(standard, marking.draft, code)
    return (
      <div key={code} role="row" className={`mark-row ${active ? 'mark-active' : ''}`}>
        <div role="rowheader" className="mark-title">
          <span className="mark-number" aria-hidden="true">
            {number ?? ''}
          </span>
          {title}
        </div>
        {places.map((cell) => {
          index += 1
          return renderCell(cell, index, title)
        })}
        <div role="gridcell" className={`mark-outcome ${outcome === 'NO-GO' ? 'mark-failed' : ''}`}>
          {outcome}
        </div>
        {(noted || problems.length > 0) && (
          <div role="gridcell" className="mark-noted">
            {noted && <p>{noted}</p>}
            {problems.map((problem) => (
              <p key={problem} className="mark-problem">
                {problem}
              </p>
            ))}
          </div>
        )}
      </div>
    )
  }
  return (
    <div ref={grid} className="mark-grid" role="grid" aria-label="Marks, line by line in the order of the standard">
      {standard.majors.map(({ code, title }) => (
        <div key={code} role="rowgroup">
          {row(code, title, [{ code, trial: 0 }], 'major', null)}
          {marking.draft.majors[code]?.mark === 'NO-GO' && (
            <CallField
              title={title}
              calls={standard.calls.length}
              value={marking.draft.majors[code]?.atCall ?? ''}
              onValue={(typed) => onAtCall(code, typed)}
              onDone={onAtCallDone}
              code={code}
            />
          )}
        </div>
      ))}
      <div role="rowgroup">
        {standard.minors.map(({ code, title }, place) =>
          row(
            code,
            title,
            Array.from({ length: standard.rule.trials }, (_, trial) => ({ code, trial: trial + 1 })),
            outcomeOf(code),
            place + 1,
          ),
        )}
      </div>
    </div>
  )
}
