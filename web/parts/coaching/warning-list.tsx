import type { CoachingWarning } from '#contract/coaching/coaching.ts'
import { sayWarning } from '../../domain/coaching/say-warning.ts'
import './warning-list.css'

interface WarningListProps {
  warnings: readonly CoachingWarning[]
  titleOf: (standard: string) => string
  /** Soldier of who reads them. */
  readerId: string | null
  today: string
}

/** Warnings one under the other, each with its day and what to do. */
export function WarningList({ warnings, titleOf, readerId, today }: WarningListProps) {
  return (
    <ul className="warning-list">
      {warnings.map((warning) => {
        const { what, todo } = sayWarning(warning, titleOf, warning.sponsorId === readerId, today)
        return (
          <li key={`${warning.kind} ${warning.standard} ${warning.sponsorId}`}>
            <b>{what}</b> <span>{todo}</span>
          </li>
        )
      })}
    </ul>
  )
}
