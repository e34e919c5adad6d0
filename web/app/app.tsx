import { useQuery } from '@tanstack/react-query'
import { lazy, Suspense, useEffect } from 'react'
import { Redirect, Route, Switch, useLocation, useSearch } from 'wouter'
import { sessionQuery } from '../api/accounts/session.ts'
import { NoAnswerError } from '../api/errors.ts'
import { PUSH_TAKEN_FOR } from '../api/notices/push.ts'
import { paths } from '../paths.ts'
import { Page } from '../ui/page.tsx'
import { ErrorBoundary } from './error-page.tsx'
import { Identity } from './identity.tsx'
import { Pages } from './router.tsx'
import { Shell } from './shell.tsx'
import { SignOut } from './sign-out.tsx'
import { UpdateBar } from './update-bar.tsx'

const loadGrading = () => import('../features/sheets/grade/routes.tsx')
let Grading: Awaited<ReturnType<typeof loadGrading>>['default'] = lazy(loadGrading)
const Offline = lazy(() => import('./offline.tsx').then(({ Offline }) => ({ default: Offline })))
const TryDraft = lazy(() => import('../features/sheets/draft/try-page.tsx'))
const SignIn = lazy(() => import('../features/accounts/sign-in/sign-in-page.tsx'))
const SetUp = lazy(() => import('../features/accounts/sign-in/set-up-page.tsx'))
const Enrol = lazy(() => import('../features/accounts/factors/enrol-page.tsx'))
const FactorResetNotice = lazy(() => import('./factor-reset.tsx'))
const Welcome = lazy(() => import('../features/accounts/sign-in/welcome-page.tsx'))
const Verify = lazy(() => import('../features/soldiers/extract/verify-page.tsx'))

/**
 * What the address needs before anything is drawn. React leaves a placeholder standing for 300 ms before it puts in what has
 * come; a grader in front of a candidate does not wait for that.
 */
export const loadFirst = async (address: string): Promise<void> => {
  if (!address.startsWith('/grade/')) return
  try {
    Grading = (await loadGrading()).default
  } catch {
    // It is asked for again when it is drawn, and what goes wrong is said there.
  }
}

/**
 * Sign-in, set-up, welcome and the check of a certificate stand alone, and so does grading, which needs no network, and a practice test on a draft, which
 * needs the whole screen; all else needs a session and comes within the shell.
 */
export function App() {
  return (
    <Suspense fallback={null}>
      <Switch>
        <Route path={paths.signIn} component={SignIn} />
        <Route path={paths.setUp} component={SetUp} />
        <Route path={paths.welcome} component={Welcome} />
        <Route path={paths.verify} component={Verify} />
        <Route path={paths.grade}>
          <ErrorBoundary>
            <Grading signIn={<ToSignIn />} />
          </ErrorBoundary>
        </Route>
        <Route path={paths.tryDraft}>
          {({ id }) => (
            <ErrorBoundary>
              <TryDraft id={id} />
            </ErrorBoundary>
          )}
        </Route>
        <Route component={SignedIn} />
      </Switch>
      <UpdateBar />
    </Suspense>
  )
}

/** To the sign-in page, and back here afterwards. */
function ToSignIn() {
  const [path] = useLocation()
  const search = useSearch()
  const from = search ? `${path}?${search}` : path
  return <Redirect to={from === '/' ? paths.signIn : `${paths.signIn}?${new URLSearchParams({ from })}`} replace />
}

function SignedIn() {
  const session = useQuery(sessionQuery)
  const [path] = useLocation()
  const signedIn = session.data
  useEffect(() => {
    if (!signedIn) return
    // For opening without a network; not needed for the first page.
    import('../device/store/device-account.ts')
      .then(({ rememberAccount }) => rememberAccount(signedIn))
      .catch(() => undefined)
    if (localStorage.getItem(PUSH_TAKEN_FOR) !== signedIn.accountId) return
    import('../device/push.ts').then(({ renewPush }) => renewPush()).catch(() => undefined)
  }, [signedIn])
  if (!signedIn && session.failureReason instanceof NoAnswerError) {
    return <Offline error={session.failureReason} onRetry={() => session.refetch()} />
  }
  if (session.error) {
    return <Page title="Reviewstand" error={session.error} onRetry={() => session.refetch()} />
  }
  if (session.data === undefined) return null
  if (session.data === null) return <ToSignIn />
  const { accountId, name, onlyEnrols, factorReset } = session.data
  if (onlyEnrols) {
    return (
      <>
        <Enrol session={session.data} signOut={<SignOut accountId={accountId} />} />
        <Identity name={name} />
      </>
    )
  }
  return (
    <>
      <Shell session={session.data}>
        {factorReset && <FactorResetNotice reset={factorReset} />}
        <ErrorBoundary key={path}>
          <Pages />
        </ErrorBoundary>
      </Shell>
      <Identity name={name} />
    </>
  )
}
