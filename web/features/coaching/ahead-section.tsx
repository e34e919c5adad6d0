import { Link } from 'wouter'
import type { CandidateCoaching } from '#contract/coaching/coaching.ts'
import { formatWhen } from '../../domain/coaching/format-ahead.ts'
import { WarningList } from '../../parts/coaching/warning-list.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'

interface AheadSectionProps {
  coaching: CandidateCoaching
  standardTitle: (code: string) => string
  readerId: string | null
  timeZone: string | null
  today: string
}

/** The tests ahead with their days, what to bring to each, and what to see to before. */
export function AheadSection({ coaching, standardTitle, readerId, timeZone, today }: AheadSectionProps) {
  const { candidateId, ahead, warnings } = coaching
  return (
    <Section title="Ahead">
      {ahead.length === 0 && <p className="muted">No test is ahead: nothing is missing and nothing is booked.</p>}
      <ul>
        {ahead.map((one) => (
          <li key={one.standard}>
            <b>{standardTitle(one.standard)}</b>: {formatWhen(one, timeZone, today)}.{' '}
            <Link
              className="no-print"
              href={addressTo(paths.candidateDay, { id: candidateId, standard: one.standard })}
            >
              What to bring
            </Link>
          </li>
        ))}
      </ul>
      {warnings.length > 0 && (
        <WarningList warnings={warnings} titleOf={standardTitle} readerId={readerId} today={today} />
      )}
    </Section>
  )
}
