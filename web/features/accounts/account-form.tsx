import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Account, InvitationLink } from '#contract/accounts/accounts.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { changeAccount, invalidateAccounts, sendLinkAnew, setAccountDisabled } from '../../api/accounts/accounts.ts'
import { ApiError } from '../../api/errors.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { type Reach, toBody } from './reach.ts'
import { ReachFields } from './reach-fields.tsx'
import { ResetFactor } from './reset-factor.tsx'
import { wrongAt } from './wrong-at.ts'

interface AccountFormProps {
  account: Account
  /** It is one's own. */
  isOwn: boolean
  units: readonly Unit[]
  onDone: (said: string) => void
  onLink: (name: string, link: InvitationLink) => void
  onCancel: () => void
}

/** Roles, soldier and unit of an account; a new link; disabling and enabling. */
export function AccountForm({ account, isOwn, units, onDone, onLink, onCancel }: AccountFormProps) {
  const { id, name, state } = account
  const [reach, setReach] = useState<Reach>(account)
  const client = useQueryClient()
  const done = (said: string) => {
    onDone(said)
    // One's own roles may be among them.
    return Promise.all([invalidateAccounts(client), client.invalidateQueries({ queryKey: ['session'] })])
  }
  const change = useMutation({
    mutationFn: () => changeAccount(id, toBody(reach)),
    onSuccess: () => done(`${name} is changed; it takes effect at once.`),
  })
  const disable = useMutation({
    mutationFn: (disabled: boolean) => setAccountDisabled(id, disabled),
    onSuccess: (_, disabled) =>
      done(disabled ? `${name} is disabled and signed out everywhere.` : `${name} is enabled again.`),
  })
  const link = useMutation({
    mutationFn: () => sendLinkAnew(id),
    onSuccess: (made) => {
      onLink(name, made)
      return invalidateAccounts(client)
    },
  })
  const busy = change.isPending || disable.isPending || link.isPending
  const isAboutFields = change.error instanceof ApiError && change.error.items.length > 0
  const failed = (isAboutFields ? null : change.error) ?? disable.error ?? link.error
  return (
    <form
      className="accounts-form"
      onSubmit={(event) => {
        event.preventDefault()
        change.mutate()
      }}
    >
      <ReachFields reach={reach} onReach={setReach} units={units} wrong={wrongAt(change.error)} />
      <div className="accounts-buttons">
        <Button type="submit" kind="main" disabled={busy}>
          Save
        </Button>
        <Button onClick={onCancel}>Cancel</Button>
      </div>
      {!isOwn && (
        <div className="accounts-more">
          {state !== 'disabled' && (
            <p>
              <Button onClick={() => link.mutate()} disabled={busy}>
                {state === 'invited' ? 'Make a new link' : 'Take the password away and make a link'}
              </Button>{' '}
              <span className="muted small">
                {state === 'invited'
                  ? 'The link before it ends.'
                  : 'For a password forgotten or known to others. It ends all sessions and tokens of the account.'}
              </span>
            </p>
          )}
          <p>
            <Button onClick={() => disable.mutate(state !== 'disabled')} disabled={busy}>
              {state === 'disabled' ? 'Enable it again' : 'Disable it'}
            </Button>{' '}
            <span className="muted small">
              {state === 'disabled'
                ? 'With the password it had.'
                : 'It ends all sessions and tokens, and the link. What it did stays on record.'}
            </span>
          </p>
          {account.hasFactor && <ResetFactor account={account} onDone={done} />}
        </div>
      )}
      {failed && <Failure error={failed} />}
    </form>
  )
}
