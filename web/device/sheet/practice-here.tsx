import { useCallback } from 'react'
import { Link } from 'wouter'
import { formatTried } from '../../domain/coaching/format-practice.ts'
import { addressTo, gradePaths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'
import { counted } from '../../words/format-number.ts'
import { formatUnitTime } from '../../words/format-zone.ts'
import { readPractices } from '../store/practice-store.ts'
import { useKept, useQueue } from '../store/use-kept.ts'
import { SendNow } from './send-now.tsx'
import './on-this-phone.css'

const SAYS = { running: 'under way', waiting: 'closed, not yet sent', refused: 'not taken by the server' }

/** Practice of chosen measures that an account has on this device, of one candidate or all; nothing without any. */
export function PracticeHere({ accountId, of }: { accountId: string; of?: string }) {
  const { value = [] } = useKept(useCallback(() => readPractices(accountId), [accountId]))
  const queue = useQueue(accountId)
  const practices = of ? value.filter(({ practice }) => practice.candidate.id === of) : value
  if (practices.length === 0) return null
  const waiting = practices.filter((one) => one.state === 'waiting').length
  return (
    <Section
      title="Practice on this phone"
      note={<span role="status">{waiting > 0 ? `${counted(waiting, 'practice')} not yet sent` : ''}</span>}
    >
      {waiting > 0 && (
        <p className="phone-queue">
          {queue.state.message && <span>{queue.state.message}</span>}
          <SendNow queue={queue} />
        </p>
      )}
      <ul className="phone-list">
        {practices.map(({ id, state: stands, practice, message }) => (
          <li key={id}>
            <Link href={addressTo(gradePaths.practice, { id })}>
              <b>
                <bdi>
                  {practice.candidate.grade} {practice.candidate.familyName}
                </bdi>
              </b>
            </Link>
            <span className="muted">
              {counted(practice.measures.length, 'measure')}, {formatUnitTime(practice.startedAt)}
            </span>
            <span>
              {formatTried({ trials: practice.measures.flatMap(({ trials }) => trials) })}; {SAYS[stands]}
              {stands === 'refused' && `: ${message}`}
            </span>
          </li>
        ))}
      </ul>
    </Section>
  )
}
