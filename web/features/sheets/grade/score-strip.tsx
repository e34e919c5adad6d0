import { memo } from 'react'
import type { SheetScore } from '#scoring/types.ts'
import { formatScoreSoFar } from '../../../domain/sheets/format-score.ts'
import { type RunningSheet, trialAt } from '../../../domain/sheets/grading/running-sheet.ts'

interface ScoreStripProps {
  calls: number
  sheet: RunningSheet
  score: SheetScore
  /** Opens the list of all calls. */
  onOpen: () => void
}

/** The running count, what is still needed, and all calls as one strip; a tap opens the list of them. */
export function ScoreStrip({ calls, sheet, score, onOpen }: ScoreStripProps) {
  const marks = Array.from({ length: calls }, (_, call) => trialAt(sheet, call).mark)
  const marked = marks.filter((mark) => mark !== null).length
  return (
    <button type="button" className="score-strip" onClick={onOpen}>
      <span className="out-of-sight">
        All calls: {marked} marked, {calls - marked} to come.{' '}
      </span>
      <span className="score-words">
        <span>
          <b>{score.go}</b> GO
        </span>{' '}
        <span>
          <b>{score.noGo}</b> NO-GO
        </span>{' '}
        {score.ending === 'unfinished' && (
          <span className="score-open">
            <b>{score.open}</b> open
          </span>
        )}{' '}
        <span className="score-need">{formatScoreSoFar(score)}</span>
      </span>
      <Strip marks={marks.map((mark) => mark ?? 'blank').join(' ')} at={sheet.at} />
    </button>
  )
}

/** Tall and solid correct, short and hollow incorrect, a dot not called yet, the one that is shown framed. */
const Strip = memo(function Strip({ marks, at }: { marks: string; at: number }) {
  return (
    <span className="call-strip" aria-hidden="true">
      {marks.split(' ').map((mark, call) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a call is its place
        <i key={call} className={call === at ? `${mark} now` : mark} />
      ))}
    </span>
  )
})
