import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import { addPasskey } from '../../../api/accounts/factors.ts'
import { ApiError } from '../../../api/errors.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'

interface PasskeyFormProps {
  onDone: (codes: string[] | null) => void
  onLeave: () => void
}

/** A new passkey: what its owner calls it; the browser does the rest. */
export function PasskeyForm({ onDone, onLeave }: PasskeyFormProps) {
  const [name, setName] = useState('')
  const add = useMutation({ mutationFn: () => addPasskey(name), onSuccess: ({ codes }) => onDone(codes) })
  const items = add.error instanceof ApiError ? add.error.items : []
  const wrong = items.find(({ pointer }) => pointer === '/name')?.detail
  return (
    <form
      className="account-form factor-passkey"
      onSubmit={(event) => {
        event.preventDefault()
        add.mutate()
      }}
    >
      <p>
        A passkey is kept by your phone, your computer or a key on a ring, and opened by fingerprint, face or PIN. One
        that asks for those can also sign you in without the password.
      </p>
      <TextField
        label="Name of the passkey"
        hint="Such as “my phone”, so that you know later which one to take away."
        required
        autoFocus
        maxLength={60}
        error={wrong}
        value={name}
        onChange={(event) => setName(event.target.value)}
      />
      <div className="reasoned-form-buttons">
        <Button type="submit" kind="main" disabled={add.isPending}>
          Add it
        </Button>
        <Button onClick={onLeave}>Leave it</Button>
      </div>
      {add.error && !wrong && <Failure error={add.error} />}
    </form>
  )
}
