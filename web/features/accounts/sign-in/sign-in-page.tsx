import { useMutation, useQuery } from '@tanstack/react-query'
import { lazy, Suspense, useState } from 'react'
import { useSearchParams } from 'wouter'
import { signInByPasskey } from '../../../api/accounts/factors.ts'
import { healthQuery, signIn } from '../../../api/accounts/session.ts'
import { Button } from '../../../ui/button.tsx'
import { Doorway } from '../../../ui/doorway.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { PasskeyButton } from '../factors/factor-fields.tsx'
import { ownAddress } from './own-address.ts'
import { SecondStep, useFirstStep } from './second-step.tsx'

const ProviderPart = lazy(() => import('./provider-part.tsx'))
const Fold = lazy(() => import('./fold.tsx'))

/** Sign-in; the demo offers its accounts, and providers stand above name and password. */
export default function SignInPage() {
  const [name, setName] = useState('')
  const [password, setPassword] = useState('')
  const [params] = useSearchParams()
  const { asked, take, arrive, beginAgain } = useFirstStep(ownAddress(params.get('from')))
  const { demo, signOn } = useQuery(healthQuery).data ?? {}
  const enter = useMutation({ mutationFn: signIn, onSuccess: take })

  if (asked) return <SecondStep asked={asked} onSignedIn={arrive} onAgain={beginAgain} />
  const form = (
    <form
      className="doorway-form"
      onSubmit={(event) => {
        event.preventDefault()
        enter.mutate({ name, password })
      }}
    >
      <TextField
        label="Name"
        autoComplete="username"
        autoCapitalize="none"
        spellCheck={false}
        required
        autoFocus
        value={name}
        onChange={(event) => setName(event.target.value)}
      />
      <TextField
        label="Password"
        type="password"
        autoComplete="current-password"
        required
        value={password}
        onChange={(event) => setPassword(event.target.value)}
      />
      <Button type="submit" kind="main" disabled={enter.isPending}>
        Sign in
      </Button>
      {enter.error && <Failure error={enter.error} />}
      <PasskeyButton use={signInByPasskey} onDone={arrive}>
        Sign in with a passkey
      </PasskeyButton>
    </form>
  )
  return (
    <Doorway>
      <Page
        title="Sign in"
        answer="Sign in to see who can stand."
        why="Forgot your password? Ask an administrator for a new link."
        focusElsewhere
      >
        {signOn && signOn.providers.length > 0 && (
          <Suspense fallback={null}>
            <ProviderPart providers={signOn.providers} />
          </Suspense>
        )}
        {signOn?.foldsPasswords ? (
          <Suspense fallback={null}>
            <Fold>{form}</Fold>
          </Suspense>
        ) : (
          form
        )}
        {demo && (
          <section className="doorway-demo" aria-labelledby="demo">
            <h2 id="demo">Demo accounts</h2>
            <p>An invented battalion; look at it as each of them does. All use the password {demo.password}.</p>
            <ul>
              {demo.accounts.map((account) => (
                <li key={account}>
                  <Button
                    disabled={enter.isPending}
                    onClick={() => enter.mutate({ name: account, password: demo.password })}
                  >
                    {account}
                  </Button>
                </li>
              ))}
            </ul>
          </section>
        )}
      </Page>
    </Doorway>
  )
}
