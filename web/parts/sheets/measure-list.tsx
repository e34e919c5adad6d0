import type { SheetBody, SheetResult } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { formatTrials, TrialBars } from '../../charts/trial-bars.tsx'
import { measureMarks } from './measure-marks.ts'
import { trialNotes } from './trial-notes.ts'
import './measure-list.css'

interface MeasureListProps {
  standard: Standard
  body: SheetBody
  result: SheetResult
}

/** The sheet measure by measure: majors first, then the minors with their trials, faults and readings. */
export function MeasureList({ standard, body, result }: MeasureListProps) {
  return (
    <ol className="measure-list">
      {standard.majors.map(({ code, title, faults }) => {
        const major = body.majors.find((marked) => marked.code === code)
        const noted = major?.faults.map((fault) => faults.find((known) => known.code === fault)?.title ?? fault) ?? []
        const at = major?.mark === 'NO-GO' ? `after call ${major.atCall ?? 0}` : ''
        return (
          <li key={code} className={major?.mark === 'NO-GO' ? 'measure-failed' : undefined}>
            <span className="measure-name">
              {title} <span className="muted">major</span>
            </span>
            <span />
            <span className="measure-outcome">{major?.mark ?? 'not marked'}</span>
            <span className="measure-notes">{[at, ...noted, major?.note].filter(Boolean).join('; ')}</span>
          </li>
        )
      })}
      {measureMarks(standard, body, result).map((measure) => (
        <li key={measure.code} className={measure.outcome === 'NO-GO' ? 'measure-failed' : undefined}>
          <span className="measure-name">{measure.title}</span>
          <TrialBars marks={measure.marks} trials={measure.trials} height={22} />
          <span className="out-of-sight">{formatTrials(measure.marks, measure.trials)}</span>
          <span className="measure-outcome">{measure.outcome ?? 'undecided'}</span>
          <ul className="measure-notes">
            {trialNotes(standard, body, measure).map(({ lead, text }) => (
              <li key={lead}>
                <span className="muted">{lead}</span> {text}
              </li>
            ))}
          </ul>
        </li>
      ))}
    </ol>
  )
}
