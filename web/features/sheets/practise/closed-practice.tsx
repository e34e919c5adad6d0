import { useCallback } from 'react'
import { Link, useLocation } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { formatTrials, TrialBars } from '../../../charts/trial-bars.tsx'
import { SendNow } from '../../../device/sheet/send-now.tsx'
import type { KeptPractice } from '../../../device/store/kept-practice.ts'
import { dropPractice, keepPractice, readPractice } from '../../../device/store/practice-store.ts'
import { useKept, useQueue } from '../../../device/store/use-kept.ts'
import { formatFaultsNoted, formatTried } from '../../../domain/coaching/format-practice.ts'
import { deskPath } from '../../../domain/sheets/grading/desk-path.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import '../grade/grade.css'

/** So many of the latest trials are drawn. */
const LATEST = 12

/** Practice that was closed: what was tried, to be gone through together, and whether it is sent. */
export function ClosedPractice({
  account,
  closed,
  standard,
}: {
  account: Session
  closed: KeptPractice
  standard: Standard
}) {
  const read = useCallback(
    () => readPractice(closed.accountId, closed.id).then((practice) => practice ?? null),
    [closed.accountId, closed.id],
  )
  const { value: kept = closed } = useKept(read)
  const { candidate, measures } = closed.practice
  const tried = measures.filter(({ trials }) => trials.length > 0)
  return (
    <Page
      title="Practice"
      answer={
        <>
          <bdi>
            {candidate.grade} {candidate.familyName}
          </bdi>
          {': '}
          {formatTried({ trials: tried.flatMap(({ trials }) => trials) })}
        </>
      }
      why={`${standard.title}. Practice: no test, in no figure.`}
      controls={
        <>
          <Link className="button" href={deskPath(account)}>
            To the desk
          </Link>
          <Link href={addressTo(paths.candidate, { id: candidate.id })}>The candidate’s page</Link>
        </>
      }
    >
      {kept === null ? (
        <Notice kind="good">
          <p>Sent. It stands on the candidate’s page.</p>
        </Notice>
      ) : (
        <Unsent kept={kept} account={account} />
      )}
      <Section title="By measure">
        <ol className="summary">
          {tried.map((measure) => {
            const minor = standard.minors.find(({ code }) => code === measure.code)
            const titleOf = (fault: string) => minor?.faults.find(({ code }) => code === fault)?.title ?? fault
            const faults = formatFaultsNoted(measure, titleOf)
            return (
              <li key={measure.code}>
                <TrialBars marks={measure.trials.slice(-LATEST)} trials={0} />
                <span className="out-of-sight">{formatTrials(measure.trials, measure.trials.length)}</span>
                <span className="summary-name">
                  <b>{minor?.title ?? measure.code}</b>: {formatTried(measure)}
                  {faults !== '' && <span className="muted"> · {faults}</span>}
                </span>
              </li>
            )
          })}
        </ol>
      </Section>
    </Page>
  )
}

/** Practice that the server does not have: why, and what can be done. */
function Unsent({ kept, account }: { kept: KeptPractice; account: Session }) {
  const queue = useQueue(account.accountId)
  const [, go] = useLocation()
  const again = async () => {
    await keepPractice({ ...kept, state: 'waiting', message: '', revision: kept.revision + 1 })
    await queue.goOn()
  }
  const discard = async () => {
    await dropPractice(kept)
    go(deskPath(account), { replace: true })
  }
  if (kept.state === 'refused') {
    return (
      <Notice kind="bad">
        <div>
          <p>The server did not take it: {kept.message}</p>
          <p>
            <Button onClick={() => void again()}>Send it again</Button>{' '}
            <Button kind="quiet" onClick={() => void discard()}>
              Discard it
            </Button>
          </p>
        </div>
      </Notice>
    )
  }
  return (
    <Notice>
      <p>
        On this phone, not yet sent. {queue.state.message} <SendNow queue={queue} />
      </p>
    </Notice>
  )
}
