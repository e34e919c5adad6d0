import { useQuery } from '@tanstack/react-query'
import { useCallback } from 'react'
import { Link } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { certificationsQuery } from '../../../api/standards/certifications.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { SendNow } from '../../../device/sheet/send-now.tsx'
import { readSheet } from '../../../device/store/sheet-store.ts'
import { useKept, useQueue } from '../../../device/store/use-kept.ts'
import { formatScoreSoFar, formatStored, formatWhyHeld } from '../../../domain/sheets/format-score.ts'
import { formatQueue } from '../../../domain/sheets/grading/format-queue.ts'
import { closingScore } from '../../../domain/sheets/grading/sheet-body.ts'
import { scoredStandard } from '../../../domain/sheets/scored-standard.ts'
import { titleUnder } from '../../../domain/standards/titles.ts'
import { addressTo, gradePaths, paths } from '../../../paths.ts'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { today } from '../../../words/today.ts'
import { MeasureSummary } from './measure-summary.tsx'
import { Next } from './next.tsx'
import { Refused } from './refused.tsx'
import './grade.css'

interface ClosedPageProps {
  account: Session
  id: string
  standard: Standard
  /** Why the device does not keep it, in words; empty while it does. */
  problem: string
}

/** A closed sheet: what it came to, where it is now, and, where the server refused it, the way to mend it. */
export function ClosedPage({ account, id, standard, problem }: ClosedPageProps) {
  const { value: kept } = useKept(useCallback(() => readSheet(account.accountId, id), [account.accountId, id]))
  const queue = useQueue(account.accountId)
  const certifications = useQuery(certificationsQuery).data ?? []
  const titleOf = titleUnder(certifications, [standard, ...(useQuery(standardsQuery).data ?? [])])
  if (!kept) return <Page title="Grade sheet" />
  const scored = scoredStandard(standard)
  const score = closingScore(scored, kept.sheet)
  const { candidate, purpose } = kept.sheet.head
  const answer = kept.answer
  return (
    <Page
      title="Grade sheet"
      answer={
        <>
          <bdi>
            {candidate.grade} {candidate.familyName}
          </bdi>
          {': '}
          {formatScoreSoFar(score)}
        </>
      }
      why={standard.title}
      controls={
        <>
          <Next account={account} after={id} />
          <Link
            href={
              answer && purpose === 'test' && answer.result.outcome === 'NO-GO' && navigator.onLine
                ? addressTo(paths.debrief, { id })
                : addressTo(gradePaths.debrief, { id })
            }
          >
            Debrief
          </Link>
          {answer && <Link href={addressTo(paths.sheet, { id })}>The sheet as it is stored</Link>}
        </>
      }
    >
      {kept.state === 'waiting' && (
        <Notice>
          <p>
            {formatQueue([kept], queue.state.phase)}. {kept.message || queue.state.message}
          </p>
          {problem !== '' && <p role="alert">{problem}</p>}
          <SendNow queue={queue} />
        </Notice>
      )}
      {kept.state === 'refused' && <Refused kept={kept} onSent={() => void queue.goOn()} />}
      {answer && (
        <Notice kind={answer.state === 'held' ? 'plain' : 'good'}>
          <div>
            <p>{formatStored(answer, purpose === 'practice')}</p>
            {answer.state === 'held' && (
              <ul className="held-why">
                {formatWhyHeld(answer, today(), titleOf).map((why) => (
                  <li key={why}>{why}</li>
                ))}
              </ul>
            )}
          </div>
        </Notice>
      )}
      <Section
        title="By measure"
        note={score.minimum === null ? undefined : `${score.minimum} of ${standard.minors.length} needed`}
      >
        <MeasureSummary standard={standard} scored={scored} sheet={kept.sheet} minors={score.minors} />
      </Section>
    </Page>
  )
}
