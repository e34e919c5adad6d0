import { useMutation } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { SHORTEST_PASSWORD } from '#contract/accounts/shortest-password.ts'
import { acceptLink, lookAtLink } from '../../../api/accounts/account.ts'
import { ApiError } from '../../../api/errors.ts'
import { paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Doorway } from '../../../ui/doorway.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { NewPasswordField } from '../../../ui/new-password-field.tsx'
import { Page } from '../../../ui/page.tsx'
import { formatMoment } from '../../../words/format-moment.ts'
import { today } from '../../../words/today.ts'
import { formatLinkProblem } from './format-link-problem.ts'
import { SecondStep, useFirstStep } from './second-step.tsx'

/** Whoever holds a one-time link chooses the password; the token stands behind the #, so that it never reaches a log. */
export default function WelcomePage() {
  const [token] = useState(() => location.hash.slice(1))
  const [password, setPassword] = useState('')
  const { asked, take, arrive, beginAgain } = useFirstStep(paths.overview)
  const look = useMutation({ mutationFn: lookAtLink })
  const accept = useMutation({ mutationFn: acceptLink, onSuccess: take })
  const { mutate } = look
  useEffect(() => {
    if (token) mutate(token)
  }, [token, mutate])

  if (asked) return <SecondStep asked={asked} onSignedIn={arrive} onAgain={beginAgain} />
  const items = accept.error instanceof ApiError ? accept.error.items : []
  const problem = formatLinkProblem(token, look.error)
  if (problem) {
    return (
      <Doorway>
        <Page title="Welcome" answer={problem.answer} why={problem.why}>
          {problem.mayHelp && <Button onClick={() => mutate(token)}>Try again</Button>}
        </Page>
      </Doorway>
    )
  }
  return (
    <Doorway>
      <Page
        title="Welcome"
        answer={look.data && 'Choose your password.'}
        why={
          look.data &&
          `Only you will know it. The link works once, until ${formatMoment(look.data.expiresAt, today())}.`
        }
        focusElsewhere
      >
        {look.data && (
          <form
            className="doorway-form"
            onSubmit={(event) => {
              event.preventDefault()
              accept.mutate({ token, password })
            }}
          >
            <TextField label="Name to sign in with" autoComplete="username" value={look.data.name} readOnly />
            <NewPasswordField
              label="Password"
              shortest={SHORTEST_PASSWORD}
              value={password}
              onValue={setPassword}
              error={items.find(({ pointer }) => pointer === '/password')?.detail}
              autoFocus
            />
            <Button type="submit" kind="main" disabled={accept.isPending}>
              Choose it and sign in
            </Button>
            {accept.error && items.length === 0 && <Failure error={accept.error} />}
          </form>
        )}
      </Page>
    </Doorway>
  )
}
