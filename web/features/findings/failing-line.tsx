import { ShareLine } from '../../charts/share-line.tsx'
import { ofAll } from '../../words/of-all.ts'
import { sayInterval } from './say-interval.ts'

interface FailingLineProps {
  title: string
  /** The standard, where there are several, and the versions where the measure changed. */
  below: string
  rate: { count: number; n: number; interval: { low: number; high: number } | null; few: boolean }
  /** What else is known: trials, faults, how it compares with other units. */
  details: string
}

/** One measure: how often it was NO-GO, out of how many, and how sure that is. */
export function FailingLine({ title, below, rate, details }: FailingLineProps) {
  return (
    <li>
      <span className="failing-name">
        <b>{title}</b>
        {below && <span className="muted">{below}</span>}
      </span>
      <ShareLine part={rate.count} of={rate.n} few={rate.few} interval={rate.interval} />
      <span className="failing-count">
        <b>{ofAll(rate.count, rate.n)}</b>
        <span className="muted">{sayInterval(rate)}</span>
      </span>
      <span className="failing-details muted">{details}</span>
    </li>
  )
}
