import { TrialBars, type TrialMark } from './trial-bars.tsx'
import './measure-strip.css'

interface StripMeasure {
  code: string
  title: string
  outcome: 'GO' | 'NO-GO' | 'not tested' | null
  marks: readonly TrialMark[]
  trials: number
}

/** A sheet as one strip: its measures in order, three bars each; the words for it belong beside it. */
export function MeasureStrip({ measures, height = 22 }: { measures: readonly StripMeasure[]; height?: number }) {
  return (
    <span className="measure-strip" aria-hidden="true">
      {measures.map(({ code, title, outcome, marks, trials }) => (
        <span
          key={code}
          title={title}
          className={outcome === 'NO-GO' ? 'measure-no-go' : outcome === 'GO' ? '' : 'measure-open'}
        >
          <TrialBars marks={marks} trials={trials} height={height} />
        </span>
      ))}
    </span>
  )
}
