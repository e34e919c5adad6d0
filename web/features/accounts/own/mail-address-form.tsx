import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { ApiError } from '../../../api/errors.ts'
import { changeMailAddress, ownMailQuery } from '../../../api/mail/own-mail.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'

interface MailAddressFormProps {
  onDone: () => void
  onLeave: () => void
}

/** A mail address, with the present password; a code is sent to it. */
export function MailAddressForm({ onDone, onLeave }: MailAddressFormProps) {
  const [address, setAddress] = useState('')
  const [password, setPassword] = useState('')
  const client = useQueryClient()
  const change = useMutation({
    mutationFn: () => changeMailAddress({ address: address.trim(), password }),
    onSuccess: (mail) => {
      client.setQueryData(ownMailQuery.queryKey, mail)
      onDone()
    },
  })
  const items = change.error instanceof ApiError ? change.error.items : []
  const wrong = (pointer: string) => items.find((item) => item.pointer === pointer)?.detail
  return (
    <form
      className="account-form"
      onSubmit={(event) => {
        event.preventDefault()
        change.mutate()
      }}
    >
      <TextField
        label="Mail address"
        type="email"
        autoComplete="email"
        required
        error={wrong('/address')}
        value={address}
        onChange={(event) => setAddress(event.target.value)}
      />
      <TextField
        label="Password, to be sure it is you"
        type="password"
        autoComplete="current-password"
        required
        error={wrong('/password')}
        value={password}
        onChange={(event) => setPassword(event.target.value)}
      />
      <div className="reasoned-form-buttons">
        <Button type="submit" kind="main" disabled={change.isPending}>
          Send a code there
        </Button>
        <Button onClick={onLeave}>Leave it</Button>
      </div>
      {change.error && items.length === 0 && <Failure error={change.error} />}
    </form>
  )
}
