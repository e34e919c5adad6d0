import type { Standard } from '#contract/standards/standards.ts'
import type { ScoredStandard } from '#scoring/types.ts'
import { formatScoreSoFar } from '../../../domain/sheets/format-score.ts'
import { endedAfter } from '../../../domain/sheets/grading/calls.ts'
import { majorOf, type RunningSheet } from '../../../domain/sheets/grading/running-sheet.ts'
import { closingScore, keepsOpen } from '../../../domain/sheets/grading/sheet-body.ts'
import type { SheetEvent } from '../../../domain/sheets/grading/sheet-event.ts'
import { Button } from '../../../ui/button.tsx'
import { counted } from '../../../words/format-number.ts'
import { Acknowledgements } from './acknowledgements.tsx'
import { MeasureSummary } from './measure-summary.tsx'

interface ClosingProps {
  /** The heading of the page, or of a part of one. */
  heading: 'h1' | 'h2'
  standard: Standard
  scored: ScoredStandard
  sheet: RunningSheet
  onTap: (event: SheetEvent) => Promise<void>
}

/** The end of a test: what it comes to by measure, what closing says of the major measures, and the closing itself. */
export function Closing({ heading: Heading, standard, scored, sheet, onTap }: ClosingProps) {
  const open = keepsOpen(scored, sheet)
  const score = closingScore(scored, sheet)
  const stopped = endedAfter(sheet) !== null
  const fallen = standard.majors.filter(({ code }) => majorOf(sheet, code).mark === 'NO-GO')
  const first = open[0]
  return (
    <div className="call closing">
      <Heading className="call-name">
        {first === undefined ? formatScoreSoFar(score) : `${counted(open.length, 'call')} still open.`}
      </Heading>
      {sheet.void && (
        <p>
          Void: {sheet.void.kind}
          {sheet.void.text && `, ${sheet.void.text}`}.{' '}
          <Button kind="quiet" onClick={() => onTap({ kind: 'void', reason: null })}>
            Take the void back
          </Button>
        </p>
      )}
      {fallen.map(({ code, title }) => (
        <p key={code}>
          {title}: NO-GO after call {majorOf(sheet, code).atCall}.
        </p>
      ))}
      {first !== undefined && (
        <Button kind="main" onClick={() => onTap({ kind: 'show', call: first })}>
          Go to the first open call
        </Button>
      )}
      <MeasureSummary standard={standard} scored={scored} sheet={sheet} minors={score.minors} />
      {first === undefined && (
        <div className="panel-buttons">
          {!stopped && !sheet.void && standard.majors.length > 0 && (
            <p>
              Closing says GO of {standard.majors.map(({ title }) => title).join(' and ')}. Marks can be changed until
              then.
            </p>
          )}
          <Acknowledgements sheet={sheet} onTap={onTap} />
        </div>
      )}
    </div>
  )
}
