import { useState } from 'react'
import type { Account } from '#contract/accounts/accounts.ts'
import { resetFactors } from '../../api/accounts/accounts.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { TextField } from '../../ui/field.tsx'

interface ResetFactorProps {
  account: Account
  onDone: (said: string) => Promise<unknown>
}

/** For a phone that is lost: takes the second factors of an account away, with a reason that its owner reads. */
export function ResetFactor({ account: { id, name }, onDone }: ResetFactorProps) {
  const [isAsked, setAsked] = useState(false)
  const [reason, setReason] = useState('')
  return (
    <p>
      <Button onClick={() => setAsked(true)}>Reset the second factor</Button>{' '}
      <span className="muted small">
        For a phone that is lost. Make sure first, by voice or face to face, that it is they who ask.
      </span>
      {isAsked && (
        <ConfirmDialog
          title={`Reset the second factor of ${name}?`}
          confirm="Reset it"
          onConfirm={async () => {
            await resetFactors(id, reason.trim())
            await onDone(
              `${name} has no second factor any more, is signed out everywhere, and is told so at the next sign-in.`,
            )
          }}
          onClose={() => setAsked(false)}
        >
          <p>
            App, passkeys and recovery codes are gone and all sessions end. From then on the password alone lets them
            in, until they set up a new one.
          </p>
          <TextField
            label="Reason"
            hint="They read it, and the record of changes keeps it."
            required
            maxLength={400}
            value={reason}
            onChange={(event) => setReason(event.target.value)}
          />
        </ConfirmDialog>
      )}
    </p>
  )
}
