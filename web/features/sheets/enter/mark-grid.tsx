import { useEffect, useRef } from 'react'
import type { Standard } from '#contract/standards/standards.ts'
import type { SheetScore } from '#scoring/types.ts'
import { CallField } from './call-field.tsx'
import { type Cell, cellsOf } from './cells.ts'
import { formatNoted } from './format-noted.ts'
import type { Marking } from './key-marking.ts'
import { MarkCell } from './mark-cell.tsx'
import { cellKey } from './place-problems.ts'
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

/** The sheet line by line in the order of the standard; the keyboard marks it, see `pressKey`. */
export function MarkGrid(props: MarkGridProps) {
  const { standard, marking, target, score, wrong, beyondEnd, focusCount, onKey, onPlace } = props
  const grid = useRef<HTMLTableElement>(null)
  const cells = cellsOf(standard)
  const at = Math.min(marking.at, cells.length - 1)

  useEffect(() => {
    if (focusCount > 0) grid.current?.querySelector<HTMLElement>('[tabindex="0"]')?.focus()
  }, [focusCount])
  // The focus follows the place while it is on one of the cells; under the thumb, only the sight does.
  // biome-ignore lint/correctness/useExhaustiveDependencies: runs when the place changes
  useEffect(() => {
    const cell = grid.current?.querySelector<HTMLElement>('[tabindex="0"]')
    if (document.activeElement?.matches('[role=gridcell]')) cell?.focus()
    else if (marking.last !== null) cell?.scrollIntoView({ block: 'nearest' })
  }, [at])

  const outcomeOf = (code: string) => {
    const minor = score.minors.find((one) => one.code === code)
    return minor?.outcome ?? (minor && minor.correct + minor.incorrect > 0 ? 'open' : '')
  }
  const row = (code: string, title: string, number: number | null, outcome: string) => {
    const places = cells.flatMap((cell, index) => (cell.code === code ? [{ cell, index }] : []))
    const problems = places.flatMap(({ cell }) => wrong[cellKey(cell)] ?? [])
    const noted = formatNoted(standard, marking.draft, code)
    return (
      // biome-ignore-start lint/a11y/noRedundantRoles: changing `display` takes the roles away in some browsers
      <tr key={code} role="row" className={`mark-row ${cells[at]?.code === code ? 'mark-active' : ''}`}>
        <th role="rowheader" scope="row" className="mark-title">
          <span className="mark-number" aria-hidden="true">
            {number ?? ''}
          </span>
          {title}
        </th>
        {places.map(({ cell, index }) => (
          <MarkCell
            key={cellKey(cell)}
            draft={marking.draft}
            cell={cell}
            title={title}
            here={index === at}
            target={index === target}
            beyondEnd={beyondEnd(cell)}
            problem={wrong[cellKey(cell)]}
            onKey={onKey}
            onPlace={() => onPlace(index)}
          />
        ))}
        <td className={`mark-outcome ${outcome === 'NO-GO' ? 'mark-failed' : ''}`}>{outcome}</td>
        <td className="mark-noted">
          {noted}
          {problems.map((problem) => (
            <p key={problem} className="mark-problem">
              {problem}
            </p>
          ))}
        </td>
      </tr>
      // biome-ignore-end lint/a11y/noRedundantRoles: see above
    )
  }
  return (
    // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: a table one moves in with the keys is a grid
    <table ref={grid} className="mark-grid" role="grid" aria-label="Marks, line by line">
      <tbody>
        {standard.majors.flatMap(({ code, title }) => {
          const major = marking.draft.majors[code]
          const line = row(code, title, null, 'major')
          if (major?.mark !== 'NO-GO') return [line]
          return [
            line,
            <CallField
              key={`call ${code}`}
              code={code}
              title={title}
              calls={standard.calls.length}
              value={major.atCall}
              onValue={(typed) => props.onAtCall(code, typed)}
              onDone={props.onAtCallDone}
            />,
          ]
        })}
        {standard.minors.map(({ code, title }, place) => row(code, title, place + 1, outcomeOf(code)))}
      </tbody>
    </table>
  )
}
