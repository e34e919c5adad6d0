import { figure } from '../words/format-number.ts'
import './count.css'

/** How many wait behind a link, beside its words; nothing when none do. `what` is read out: "held sheets". */
export function Count({ count, what }: { count: number; what: string }) {
  if (count === 0) return null
  return (
    <span className="count">
      {figure(count)}
      <span className="out-of-sight"> {what}</span>
    </span>
  )
}
