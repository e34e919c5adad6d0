import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { useLocation } from 'wouter'
import type { FactorAsked } from '#contract/accounts/factors.ts'
import type { Session } from '#contract/accounts/session.ts'
import { finishByPasskey, finishSignIn } from '../../../api/accounts/factors.ts'
import { setSession } from '../../../api/accounts/session.ts'
import { ApiError } from '../../../api/errors.ts'
import { Button } from '../../../ui/button.tsx'
import { Doorway } from '../../../ui/doorway.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { Page } from '../../../ui/page.tsx'
import { CodeField, PasskeyButton } from '../factors/factor-fields.tsx'

/** What follows a first step: one is in, and goes on to an address; or the second factor is asked for. */
export function useFirstStep(to: string) {
  const [asked, setAsked] = useState<FactorAsked | null>(null)
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const arrive = (session: Session) => {
    setSession(client, session)
    navigate(to, { replace: true })
  }
  const take = (answer: Session | FactorAsked) => ('accountId' in answer ? arrive(answer) : setAsked(answer))
  return { asked, take, arrive, beginAgain: () => setAsked(null) }
}

interface SecondStepProps {
  asked: FactorAsked
  onSignedIn: (session: Session) => void
  onAgain: () => void
}

/** The second step of signing in: a code, or a passkey. */
export function SecondStep({ asked, onSignedIn, onAgain }: SecondStepProps) {
  const [code, setCode] = useState('')
  const finish = useMutation({ mutationFn: finishSignIn, onSuccess: onSignedIn })
  const { error } = finish
  const isOver = error instanceof ApiError && error.status === 401
  const isAtField = error instanceof ApiError && error.items.length > 0
  return (
    <Doorway>
      <Page
        title="Second factor"
        answer="Now your second factor."
        why={`The password is right. Lost the phone? Use a recovery code, of which ${saysLeft(asked.recoveryCodes)} left, or ask an administrator.`}
        focusElsewhere
      >
        <form
          className="doorway-form"
          onSubmit={(event) => {
            event.preventDefault()
            finish.mutate({ code })
          }}
        >
          {asked.passkey && (
            <PasskeyButton main use={finishByPasskey} onDone={onSignedIn}>
              Use a passkey
            </PasskeyButton>
          )}
          <CodeField app={asked.app} code={code} error={error} onCode={setCode} autoFocus />
          <div className="doorway-buttons">
            <Button type="submit" kind={asked.passkey && !asked.app ? undefined : 'main'} disabled={finish.isPending}>
              Sign in
            </Button>
            <Button onClick={onAgain}>{isOver ? 'Sign in again' : 'Back'}</Button>
          </div>
          {error && !isAtField && <Failure error={error} />}
        </form>
      </Page>
    </Doorway>
  )
}

const saysLeft = (count: number): string => (count === 1 ? 'one is' : count === 0 ? 'none are' : `${count} are`)
