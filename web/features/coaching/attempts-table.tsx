import { Link } from 'wouter'
import { formatTrials, TrialBars } from '../../charts/trial-bars.tsx'
import type { MeasureMarks } from '../../parts/sheets/measure-marks.ts'
import { addressTo, paths } from '../../paths.ts'
import { TableFiles } from '../../ui/table-files.tsx'
import { formatDay } from '../../words/format-day.ts'
import { attemptCells } from './attempt-cells.ts'
import type { AttemptRow } from './attempt-rows.ts'
import './attempts-table.css'

interface AttemptsProps {
  rows: readonly AttemptRow[]
  measures: readonly { code: string; title: string }[]
  today: string
}

/** Attempts one above the other as strips of measures and trials; on a phone the measures go by number, named below. */
export function AttemptsTable({ rows, measures, today }: AttemptsProps) {
  return (
    // biome-ignore-start lint/a11y/noRedundantRoles: changing `display` takes the roles away in some browsers
    <div className="attempts" style={{ '--measures': measures.length } as React.CSSProperties}>
      <table role="table">
        <caption className="out-of-sight">Attempts by measure, the newest first</caption>
        <thead role="rowgroup">
          <tr role="row">
            <th role="columnheader" scope="col">
              <span className="out-of-sight">Day and outcome</span>
            </th>
            {measures.map(({ code, title }, index) => (
              <th key={code} role="columnheader" scope="col" className="attempts-measure">
                <span className="attempts-title">{title}</span>
                <span className="attempts-number" aria-hidden="true">
                  {index + 1}
                </span>
              </th>
            ))}
            <th role="columnheader" scope="col" className="attempts-score">
              Minors GO
            </th>
          </tr>
        </thead>
        <tbody role="rowgroup">
          {rows.map((row) => (
            <tr
              key={row.sheet.id}
              role="row"
              className={row.sheet.state === 'counted' ? undefined : 'attempts-outside'}
            >
              <th role="rowheader" scope="row" className="attempts-day">
                <Link href={addressTo(paths.sheet, { id: row.sheet.id })}>{formatDay(row.sheet.day, today)}</Link>
                <span className={row.good === false ? 'attempts-bad' : row.good ? 'attempts-good' : ''}>
                  {row.outcome}
                </span>
                {row.notes.length > 0 && <span className="attempts-notes">{row.notes.join(' · ')}</span>}
              </th>
              {row.cells.map((cell, index) => (
                <td key={measures[index]?.code} role="cell" className={cellClass(cell)}>
                  {cell && <Cell measure={cell} />}
                </td>
              ))}
              <td role="cell" className="attempts-score">
                <b>{row.score}</b>
                <span>{row.scoreNote}</span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <ol className="attempts-key">
        {measures.map(({ code, title }) => (
          <li key={code}>{title}</li>
        ))}
      </ol>
      <TableFiles caption="Attempts by measure" rows={() => attemptCells(rows, measures)} />
    </div>
    // biome-ignore-end lint/a11y/noRedundantRoles: see above
  )
}

const cellClass = (cell: MeasureMarks | null) =>
  [
    'attempts-cell',
    cell?.outcome === 'NO-GO' ? 'attempts-no-go' : '',
    cell?.outcome === 'GO' ? '' : 'attempts-open',
  ].join(' ')

function Cell({ measure }: { measure: MeasureMarks }) {
  return (
    <>
      <TrialBars marks={measure.marks} trials={measure.trials} />
      <span className="attempts-word">{measure.outcome ?? 'undecided'}</span>
      <span className="out-of-sight">{formatTrials(measure.marks, measure.trials)}</span>
    </>
  )
}
