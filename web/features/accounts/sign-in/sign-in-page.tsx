import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { useLocation, useSearchParams } from 'wouter'
import { healthQuery, setSession, signIn } from '../../../api/accounts/session.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { Doorway } from './doorway.tsx'
import { ownAddress } from './own-address.ts'

/** Sign-in; the demo offers its accounts. */
export default function SignInPage() {
  const [name, setName] = useState('')
  const [password, setPassword] = useState('')
  const [params] = useSearchParams()
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const demo = useQuery(healthQuery).data?.demo
  const enter = useMutation({
    mutationFn: signIn,
    onSuccess: (session) => {
      setSession(client, session)
      navigate(ownAddress(params.get('from')), { replace: true })
    },
  })

  return (
    <Doorway>
      <Page
        title="Sign in"
        answer="Sign in to see who can stand."
        why="Whoever has forgotten the password asks an administrator for a new link."
        focusElsewhere
      >
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
        </form>
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
