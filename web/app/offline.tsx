import { Route, Switch } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import { candidatePage } from '../device/store/kept-page.ts'
import { useAccount } from '../device/store/use-account.ts'
import { useQueue } from '../device/store/use-kept.ts'
import { ROLE_WORDS } from '../domain/accounts/roles.ts'
import CandidateDay from '../features/coaching/day-page.tsx'
import Candidate from '../features/coaching/page.tsx'
import GraderDesk from '../features/desks/grader/desk.tsx'
import SponsorDesk from '../features/desks/sponsor/desk.tsx'
import { KeptStudies } from '../features/study/kept-studies.tsx'
import StudyPage from '../features/study/page.tsx'
import { addressTo, paths } from '../paths.ts'
import { Mark } from '../ui/mark.tsx'
import { Page } from '../ui/page.tsx'
import { Tabs } from '../ui/tabs.tsx'
import { desksOf } from './desks.tsx'
import { KeptPage } from './kept-page.tsx'
import { ZoneSaid } from './zone-said.tsx'
import './shell.css'

/** Without an answer from the server: the desks of who signed in on this device last, and their pages as they were kept. */
export function Offline({ error, onRetry }: { error: Error; onRetry: () => void }) {
  const account = useAccount()
  if (account === undefined) return null
  if (account === null) return <Page title="Reviewstand" error={error} onRetry={onRetry} />
  return (
    <>
      <header className="mast">
        <span className="mast-name">
          <Mark />
          Reviewstand
        </span>
        <button type="button" className="button button-plain mast-button" onClick={onRetry}>
          Try again
        </button>
        <bdi>{account.name}</bdi>
      </header>
      <p className="offline-say" role="status">
        No answer from the server; grading works.
      </p>
      <ZoneSaid zone={account.zone} />
      <Kept account={account} />
    </>
  )
}

function Kept({ account }: { account: Session }) {
  // With the cache of every page, for it outlives the pages here.
  useQueue(account.accountId)
  return (
    <Switch>
      <Route path={paths.study}>{({ id }) => <StudyPage key={id} id={id} />}</Route>
      <Route path={paths.candidate}>
        {({ id }) => (
          <KeptPage key={id} account={account} page={candidatePage(id)}>
            <Candidate id={id} />
          </KeptPage>
        )}
      </Route>
      <Route path={paths.candidateDay}>
        {({ id }) => (
          <KeptPage key={id} account={account} page={candidatePage(id)}>
            <CandidateDay id={id} />
          </KeptPage>
        )}
      </Route>
      <Route path={paths.desk}>{({ role }) => <Desk account={account} of={role} />}</Route>
      <Route>
        <Desk account={account} />
      </Route>
    </Switch>
  )
}

/** The desks that work from what a phone keeps; who has none of them may have sheets on it all the same. */
const KEPT = ['grader', 'sponsor', 'soldier']

function Desk({ account, of }: { account: Session; of?: string }) {
  const { accountId, roles, soldierId } = account
  const own = desksOf(roles).flatMap(({ role }) => (KEPT.includes(role) ? [role] : []))
  const here = own.find((role) => role === of) ?? own[0] ?? 'grader'
  const tabs = own.map((role) => ({
    to: addressTo(paths.desk, { role }),
    text: ROLE_WORDS.find((word) => word.role === role)?.title ?? role,
    isHere: role === here,
  }))
  return (
    <>
      {tabs.length > 1 && <Tabs label="Desks" tabs={tabs} />}
      {here === 'sponsor' && (
        <KeptPage account={account} page="sponsor">
          <SponsorDesk />
        </KeptPage>
      )}
      {here === 'soldier' && (
        <KeptPage account={account} page={candidatePage(soldierId ?? '')}>
          <Candidate id={soldierId ?? ''} />
        </KeptPage>
      )}
      {here === 'grader' && <GraderDesk />}
      <div className="offline-more">
        <KeptStudies accountId={accountId} />
      </div>
    </>
  )
}
