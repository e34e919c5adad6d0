import { Route, Switch } from 'wouter'
import { deviceDatabase } from '../../../device/store/database.ts'
import { useAccount } from '../../../device/store/use-account.ts'
import { gradePaths } from '../../../paths.ts'
import { Page } from '../../../ui/page.tsx'
import { PracticePage } from '../practise/page.tsx'
import { DebriefPage } from './debrief-page.tsx'
import { GradePage } from './page.tsx'
import { StartPage } from './start-page.tsx'

// Opened while the page is being drawn.
deviceDatabase().catch(() => undefined)

interface GradingProps {
  /** Where somebody signs in who is not known on this device. */
  signIn: React.ReactNode
}

/** Grading: it needs no shell, no session and no network, only that somebody is known on this device. */
export default function Grading({ signIn }: GradingProps) {
  const account = useAccount()
  if (account === undefined) return <Page title="Reviewstand" />
  if (account === null) return signIn
  return (
    <Switch>
      <Route path={gradePaths.start}>
        <StartPage account={account} />
      </Route>
      <Route path={gradePaths.practice}>{({ id }) => <PracticePage key={id} account={account} id={id} />}</Route>
      <Route path={gradePaths.debrief}>{({ id }) => <DebriefPage key={id} account={account} id={id} />}</Route>
      <Route path={gradePaths.sheet}>{({ id }) => <GradePage key={id} account={account} id={id} />}</Route>
    </Switch>
  )
}
