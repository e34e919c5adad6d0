import { ShareLine } from '../../charts/share-line.tsx'
import { FEW, failingOrder } from '../../model/failing-order.ts'
import type { MeasureCounts } from '../../model/finding-counts.ts'
import { ofAll } from '../../words/of-all.ts'
import './worst-measures.css'

const SHOWN = 6

type Measure = MeasureCounts & { rate: { interval: { low: number; high: number } | null }; versions: readonly number[] }

interface WorstMeasuresProps {
  measures: readonly Measure[]
  titleOf: (measure: MeasureCounts) => string
  standardOf: (measure: MeasureCounts) => string
}

/** The measures that fail most, with counts and what they are out of. */
export function WorstMeasures({ measures, titleOf, standardOf }: WorstMeasuresProps) {
  const worst = failingOrder(measures.filter(({ tested, noGo }) => tested > 0 && noGo > 0)).slice(0, SHOWN)
  const many = new Set(worst.map(({ standard }) => standard)).size > 1
  return (
    <ul className="worst">
      {worst.map((measure) => (
        <li key={`${measure.standard} ${measure.measure} ${measure.versions}`}>
          <span>
            {titleOf(measure)}
            {many && <span className="worst-standard">{standardOf(measure)}</span>}
          </span>
          <ShareLine
            part={measure.noGo}
            of={measure.tested}
            few={measure.tested < FEW}
            interval={measure.rate.interval}
          />
          <span className="worst-count">{ofAll(measure.noGo, measure.tested)}</span>
        </li>
      ))}
    </ul>
  )
}
