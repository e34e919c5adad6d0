import type { SheetScore } from '#scoring/types.ts'
import { formatScoreSoFar } from '../../../domain/sheets/format-score.ts'
import './score-line.css'

/** The running score: GO, NO-GO, open, and what is still needed. */
export function ScoreLine({ score }: { score: SheetScore }) {
  return (
    <div className="score-line">
      {score.ending !== 'recorded' && (
        <p className="score-counts">
          <span>
            <b>{score.go}</b> GO
          </span>
          <span>
            <b>{score.noGo}</b> NO-GO
          </span>
          <span>
            {score.ending === 'unfinished' ? (
              <>
                <b>{score.open}</b> open
              </>
            ) : (
              <>
                <b>{score.notTested}</b> not tested
              </>
            )}
          </span>
        </p>
      )}
      <p className="score-says">{formatScoreSoFar(score)}</p>
    </div>
  )
}
