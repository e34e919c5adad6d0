import { useState } from 'react'
import { Link } from 'wouter'
import { isolated } from '#calendar/isolate.ts'
import type { Standard } from '#contract/standards/standards.ts'
import type { SheetKeeper } from '../../../device/sheet/sheet-keeper.ts'
import { useKeeping } from '../../../device/sheet/use-sheet-writer.ts'
import { formatScoreSoFar } from '../../../domain/sheets/format-score.ts'
import { NONE_NOTED } from '../../../domain/sheets/grading/fault-order.ts'
import { closingScore } from '../../../domain/sheets/grading/sheet-body.ts'
import { scoredStandard } from '../../../domain/sheets/scored-standard.ts'
import { Button } from '../../../ui/button.tsx'
import { Page } from '../../../ui/page.tsx'
import { MeasureSummary } from '../grade/measure-summary.tsx'
import { RunningField } from '../grade/running-field.tsx'
import './trial.css'

interface TrialFieldProps {
  standard: Standard
  keeper: SheetKeeper
  /** Where one goes who leaves it; null: it is part of another page. */
  leaveTo: string | null
  onAgain: () => void
}

/** The sheet of a grader on a draft: graded as any other, and at the end what it came to. Nothing of it is kept. */
export function TrialField({ standard, keeper, leaveTo, onAgain }: TrialFieldProps) {
  const { sheet: kept } = useKeeping(keeper)
  const [isClosed, setClosed] = useState(false)
  const { arm } = kept.sheet.head
  if (isClosed) {
    const scored = scoredStandard(standard)
    const score = closingScore(scored, kept.sheet)
    const why = 'This was tried out on a draft; nothing of it was stored.'
    const summary = <MeasureSummary standard={standard} scored={scored} sheet={kept.sheet} minors={score.minors} />
    const again = (
      <Button kind="main" onClick={onAgain}>
        Once more
      </Button>
    )
    if (leaveTo !== null) {
      const ways = (
        <>
          {again}
          <Link href={leaveTo}>Back to the draft</Link>
        </>
      )
      return (
        <Page title="Practice test on a draft" answer={formatScoreSoFar(score)} why={why} controls={ways}>
          {summary}
        </Page>
      )
    }
    return (
      <div className="trial-closed">
        <h2>{formatScoreSoFar(score)}</h2>
        <p>{why}</p>
        {summary}
        {again}
      </div>
    )
  }
  return (
    <RunningField
      noted={NONE_NOTED}
      standard={standard}
      keeper={keeper}
      header={(onMore) => (
        <header className="grade-head">
          <p className="grade-who">
            <b>Draft</b>
            {arm && <span>{isolated(arm)}</span>}
            <span className="grade-practice">practice</span>
          </p>
          <p className="grade-kept is-quiet">Nothing of it is stored</p>
          <Button onClick={onMore}>More</Button>
        </header>
      )}
      leaveTo={leaveTo}
      onClose={() => setClosed(true)}
    />
  )
}
