import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { OwnMail } from '#contract/mail/mail.ts'
import { ApiError } from '../../../api/errors.ts'
import { confirmMailAddress, ownMailQuery, sendMailCode } from '../../../api/mail/own-mail.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'

/** The code that was sent to the address, or a new one. */
export function MailCodeForm({ mail }: { mail: OwnMail }) {
  const [code, setCode] = useState('')
  const client = useQueryClient()
  const keep = (next: OwnMail) => client.setQueryData(ownMailQuery.queryKey, next)
  const confirm = useMutation({ mutationFn: () => confirmMailAddress(code.replace(/\s/g, '')), onSuccess: keep })
  const anew = useMutation({ mutationFn: sendMailCode, onSuccess: keep })
  const wrong = confirm.error instanceof ApiError ? confirm.error.items[0]?.detail : undefined
  return (
    <form
      className="account-form"
      onSubmit={(event) => {
        event.preventDefault()
        confirm.mutate()
      }}
    >
      <TextField
        label="Code from the mail"
        inputMode="numeric"
        autoComplete="one-time-code"
        required
        hint={`Eight digits. It comes within a minute; look among unwanted mail too.`}
        error={wrong}
        value={code}
        onChange={(event) => setCode(event.target.value)}
      />
      <div className="reasoned-form-buttons">
        <Button type="submit" kind="main" disabled={confirm.isPending}>
          Confirm {mail.address}
        </Button>
        <Button onClick={() => anew.mutate()} disabled={anew.isPending}>
          Send a new code
        </Button>
      </div>
      {anew.data && <p role="status">A new code is on its way. The one before no longer counts.</p>}
      {confirm.error && !wrong && <Failure error={confirm.error} />}
      {anew.error && <Failure error={anew.error} />}
    </form>
  )
}
