import type { CoachingWarning } from '#contract/coaching/coaching.ts'
import { formatWarning } from '../../domain/coaching/format-warning.ts'
import { listed } from '../../words/format-number.ts'
import './warning-list.css'

interface WarningListProps {
  warnings: readonly CoachingWarning[]
  titleOf: (standard: string) => string
  /** Soldier of who reads them. */
  readerId: string | null
  today: string
}

/** Warnings about a sponsor that differ in nothing but the standard, as one with all of them. */
export function eachOnce(warnings: readonly CoachingWarning[]): { warning: CoachingWarning; standards: string[] }[] {
  const once = new Map<string, { warning: CoachingWarning; standards: string[] }>()
  for (const warning of warnings) {
    const { kind, on, test, booked, sponsorId, standard } = warning
    const key = JSON.stringify([kind, on, test, booked, sponsorId ?? standard])
    const known = once.get(key) ?? { warning, standards: [] }
    if (!known.standards.includes(standard)) known.standards.push(standard)
    once.set(key, known)
  }
  return [...once.values()]
}

/** Warnings one under the other, each once, with its day and what to do. */
export function WarningList({ warnings, titleOf, readerId, today }: WarningListProps) {
  return (
    <ul className="warning-list">
      {eachOnce(warnings).map(({ warning, standards }) => {
        const title = listed(standards.map(titleOf))
        const { what, todo } = formatWarning(warning, () => title, warning.sponsorId === readerId, today)
        return (
          <li key={`${warning.kind} ${warning.standard} ${warning.sponsorId} ${warning.on}`}>
            <b>{what}</b> <span>{todo}</span>
          </li>
        )
      })}
    </ul>
  )
}
