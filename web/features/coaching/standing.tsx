import type { CandidateCoaching } from '#contract/coaching/coaching.ts'
import type { Certification, CertificationStatus, Retest } from '#contract/standards/certifications.ts'
import { certificationTitle } from '../../domain/standards/titles.ts'
import { StateLine, StateList } from '../../ui/state-list.tsx'
import { StateWord } from '../../ui/state-mark.tsx'
import { formatDay } from '../../words/format-day.ts'
import { standingLines } from './standing-lines.ts'

type TestAhead = CandidateCoaching['ahead'][number]

interface StandingProps {
  statuses: readonly CertificationStatus[]
  retests: readonly Retest[]
  ahead: readonly TestAhead[]
  certifications: readonly Certification[]
  standardTitle: (code: string) => string
  today: string
}

/** How the soldier stands in each certification: state, until when, what is in and what is missing. */
export function Standing({ statuses, retests, ahead, certifications, standardTitle, today }: StandingProps) {
  return (
    <StateList>
      {statuses.map((status) => {
        const terms = certifications.find(({ code }) => code === status.certification)
        const lines = standingLines(status, terms, retests, ahead, standardTitle, today)
        return (
          <StateLine key={status.certification} lines={lines}>
            <b>{certificationTitle(certifications, status.certification)}</b>
            <StateWord state={status.status} />
            {status.validThrough && (
              <span className="muted">
                {status.validThrough >= today ? 'valid' : 'was valid'} through {formatDay(status.validThrough, today)}
              </span>
            )}
          </StateLine>
        )
      })}
    </StateList>
  )
}
