import type { Standard } from '#contract/standards/standards.ts'
import type { MinorScore, ScoredStandard } from '#scoring/types.ts'
import { formatTrials, TrialBars } from '../../../charts/trial-bars.tsx'
import { callsOf } from '../../../domain/sheets/grading/calls.ts'
import { type RunningSheet, trialAt } from '../../../domain/sheets/grading/running-sheet.ts'

interface MeasureSummaryProps {
  standard: Standard
  scored: ScoredStandard
  sheet: RunningSheet
  minors: readonly MinorScore[]
}

/** The sheet by measure: trials, outcome, and the faults that were seen or measured. */
export function MeasureSummary({ standard, scored, sheet, minors }: MeasureSummaryProps) {
  return (
    <ul className="summary" aria-label="By measure">
      {standard.minors.map(({ code, title, faults }) => {
        const score = minors.find((minor) => minor.code === code)
        const marks = callsOf(scored, code).map((call) => trialAt(sheet, call).mark)
        const seen = [...new Set(score?.faults.map((fault) => fault.code))]
        return (
          <li key={code}>
            <TrialBars marks={marks} trials={standard.rule.trials} height={22} />
            <span className="summary-name">
              {title}
              <span className="out-of-sight">: {formatTrials(marks, standard.rule.trials)}</span>
              {seen.length > 0 && (
                <span className="muted small">
                  {' '}
                  {seen.map((fault) => faults.find((known) => known.code === fault)?.title ?? fault).join('; ')}
                </span>
              )}
            </span>
            <b>{score?.outcome ?? 'open'}</b>
          </li>
        )
      })}
    </ul>
  )
}
