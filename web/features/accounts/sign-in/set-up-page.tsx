import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import { setUp, signIn } from '../../../api/accounts/session.ts'
import { ApiError } from '../../../api/errors.ts'
import { paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Doorway } from '../../../ui/doorway.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Page } from '../../../ui/page.tsx'
import { useFirstStep } from './second-step.tsx'

/** The first account of an empty server; the token stands behind the # of the link it printed, so it never reaches a log. */
export default function SetUpPage() {
  const [token] = useState(() => decodeURIComponent(location.hash.slice(1)))
  const [name, setName] = useState('')
  const [password, setPassword] = useState('')
  const { take } = useFirstStep(paths.firstSteps)
  const make = useMutation({
    mutationFn: async () => {
      await setUp({ token, name, password })
      return signIn({ name, password })
    },
    onSuccess: take,
  })
  const wrong = (pointer: string) =>
    make.error instanceof ApiError ? make.error.items.find((item) => item.pointer === pointer)?.detail : undefined

  return (
    <Doorway>
      <Page
        title="First account"
        answer={token ? 'Make the first account.' : 'This link is incomplete.'}
        why={
          token
            ? 'It belongs to whoever administers Reviewstand here. The link works once.'
            : 'Copy it from the server’s start message again, with everything behind the #.'
        }
        focusElsewhere
      >
        {token && (
          <form
            className="doorway-form"
            onSubmit={(event) => {
              event.preventDefault()
              make.mutate()
            }}
          >
            <TextField
              label="Name"
              autoComplete="username"
              autoCapitalize="none"
              spellCheck={false}
              required
              autoFocus
              error={wrong('/name')}
              value={name}
              onChange={(event) => setName(event.target.value)}
            />
            <TextField
              label="Password"
              type="password"
              autoComplete="new-password"
              required
              minLength={15}
              hint="At least 15 characters; a few words make a good one."
              error={wrong('/password')}
              value={password}
              onChange={(event) => setPassword(event.target.value)}
            />
            <Button type="submit" kind="main" disabled={make.isPending}>
              Make the account
            </Button>
            {make.error && <Failure error={make.error} />}
          </form>
        )}
      </Page>
    </Doorway>
  )
}
