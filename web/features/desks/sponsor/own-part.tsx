import { Link } from 'wouter'
import type { Coaching } from '#contract/coaching/coaching.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Section } from '../../../ui/section.tsx'
import { StateWord } from '../../../ui/state-mark.tsx'
import { formatDay } from '../../../words/format-day.ts'

interface OwnPartProps {
  own: Coaching['own']
  soldierId: string | null
  titleOf: (certification: string) => string
  today: string
}

/** How the sponsor stands, who must be certified on the day of the test. */
export function OwnPart({ own, soldierId, titleOf, today }: OwnPartProps) {
  return (
    <Section title="You" note="a sponsor is certified on the day of the test">
      <ul>
        {own.map(({ certification, status, validThrough }) => (
          <li key={certification} className="coached-status">
            <StateWord state={status} />
            <Link href={addressTo(paths.candidate, { id: soldierId ?? '' })}>{titleOf(certification)}</Link>
            {status === 'certified' && validThrough && (
              <span className="muted">through {formatDay(validThrough, today)}</span>
            )}
          </li>
        ))}
      </ul>
    </Section>
  )
}
