import { Route, Switch } from 'wouter'
import { useAccount } from '../device/store/use-account.ts'
import GraderDesk from '../features/desks/grader/desk.tsx'
import { KeptStudies } from '../features/study/kept-studies.tsx'
import StudyPage from '../features/study/page.tsx'
import { paths } from '../paths.ts'
import { Mark } from '../ui/mark.tsx'
import { Page } from '../ui/page.tsx'
import { ZoneSaid } from './zone-said.tsx'
import './shell.css'

/** Without an answer from the server: the desk of who signed in on this device last, from which they grade. */
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
      <Switch>
        <Route path={paths.study}>{({ id }) => <StudyPage key={id} id={id} />}</Route>
        <Route>
          <GraderDesk />
          <KeptStudies accountId={account.accountId} />
        </Route>
      </Switch>
    </>
  )
}
