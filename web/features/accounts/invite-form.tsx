import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { isolated } from '#calendar/isolate.ts'
import type { InvitationLink } from '#contract/accounts/accounts.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { invalidateAccounts, inviteAccount } from '../../api/accounts/accounts.ts'
import { ApiError } from '../../api/errors.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { NO_REACH, toBody } from './reach.ts'
import { ReachFields } from './reach-fields.tsx'
import { wrongAt } from './wrong-at.ts'

interface InviteFormProps {
  units: readonly Unit[]
  onInvited: (name: string, link: InvitationLink) => void
  onCancel: () => void
}

/** A new account: its name, and what it may see and do. The password is chosen by whoever gets the link. */
export function InviteForm({ units, onInvited, onCancel }: InviteFormProps) {
  const [name, setName] = useState('')
  const [reach, setReach] = useState(NO_REACH)
  const client = useQueryClient()
  const invite = useMutation({
    mutationFn: () => inviteAccount({ name, ...toBody(reach) }),
    onSuccess: (link) => {
      onInvited(isolated(name), link)
      return invalidateAccounts(client)
    },
  })
  const wrong = wrongAt(invite.error)
  const isAboutFields = invite.error instanceof ApiError && invite.error.items.length > 0
  return (
    <form
      className="accounts-form"
      onSubmit={(event) => {
        event.preventDefault()
        invite.mutate()
      }}
    >
      <TextField
        label="Name to sign in with"
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        required
        maxLength={100}
        autoFocus
        error={wrong('/name')}
        value={name}
        onChange={(event) => setName(event.target.value)}
      />
      <ReachFields reach={reach} onReach={setReach} units={units} wrong={wrong} />
      <div className="accounts-buttons">
        <Button type="submit" kind="main" disabled={invite.isPending}>
          Make the account and its link
        </Button>
        <Button onClick={onCancel}>Cancel</Button>
      </div>
      {invite.error && !isAboutFields && <Failure error={invite.error} />}
    </form>
  )
}
