import { useQuery } from '@tanstack/react-query'
import { lazy, Suspense } from 'react'
import { Redirect, Route, Switch, useLocation, useSearch } from 'wouter'
import { sessionQuery } from '../api/session.ts'
import { Page } from '../ui/page.tsx'
import { ErrorBoundary } from './error-page.tsx'
import { paths } from './paths.ts'
import { Pages } from './router.tsx'
import { Shell } from './shell.tsx'

const SignIn = lazy(() => import('../features/session/sign-in-page.tsx'))
const SetUp = lazy(() => import('../features/session/set-up-page.tsx'))
const Welcome = lazy(() => import('../features/session/welcome-page.tsx'))

/** Sign-in, set-up and welcome stand alone; everything else needs a session and comes within the shell. */
export function App() {
  return (
    <Suspense fallback={null}>
      <Switch>
        <Route path={paths.signIn} component={SignIn} />
        <Route path={paths.setUp} component={SetUp} />
        <Route path={paths.welcome} component={Welcome} />
        <Route component={SignedIn} />
      </Switch>
    </Suspense>
  )
}

function SignedIn() {
  const session = useQuery(sessionQuery)
  const [path] = useLocation()
  const search = useSearch()
  if (session.error) {
    return <Page title="Reviewstand" error={session.error} onRetry={() => session.refetch()} />
  }
  if (session.data === undefined) return null
  if (session.data === null) {
    const from = search ? `${path}?${search}` : path
    return <Redirect to={from === '/' ? paths.signIn : `${paths.signIn}?${new URLSearchParams({ from })}`} replace />
  }
  return (
    <Shell session={session.data}>
      <ErrorBoundary key={path}>
        <Pages />
      </ErrorBoundary>
    </Shell>
  )
}
