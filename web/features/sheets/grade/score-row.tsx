import type { SheetScore } from '#scoring/types.ts'
import { sayScoreSoFar } from '../../../domain/sheets/say-score.ts'

/** The running count, and what is still needed. */
export function ScoreRow({ score }: { score: SheetScore }) {
  return (
    <p className="grade-score">
      <span>
        <b>{score.go}</b> GO
      </span>
      <span>
        <b>{score.noGo}</b> NO-GO
      </span>
      {score.ending === 'unfinished' && (
        <span>
          <b>{score.open}</b> open
        </span>
      )}
      <span className="grade-need">{sayScoreSoFar(score)}</span>
    </p>
  )
}
