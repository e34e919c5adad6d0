import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { SHORTEST_PASSWORD } from '#contract/accounts/shortest-password.ts'
import { changePassword, ownSessionsQuery } from '../../../api/accounts/account.ts'
import { ApiError } from '../../../api/errors.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { NewPasswordField } from '../../../ui/new-password-field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { formatPasswordChanged } from './format-account.ts'

/** The present password and a new one. The name is there for the sake of whatever keeps passwords. */
export function PasswordForm({ name }: { name: string }) {
  const [current, setCurrent] = useState('')
  const [next, setNext] = useState('')
  const client = useQueryClient()
  const change = useMutation({
    mutationFn: changePassword,
    onSuccess: () => {
      setCurrent('')
      setNext('')
      return client.invalidateQueries({ queryKey: ownSessionsQuery.queryKey })
    },
  })
  const items = change.error instanceof ApiError ? change.error.items : []
  const wrong = (pointer: string) => items.find((item) => item.pointer === pointer)?.detail
  return (
    <form
      className="account-form"
      onSubmit={(event) => {
        event.preventDefault()
        change.mutate({ current, next })
      }}
    >
      <input type="text" autoComplete="username" value={name} readOnly hidden />
      <TextField
        label="Present password"
        type="password"
        autoComplete="current-password"
        required
        error={wrong('/current')}
        value={current}
        onChange={(event) => setCurrent(event.target.value)}
      />
      <NewPasswordField
        label="New password"
        shortest={SHORTEST_PASSWORD}
        value={next}
        onValue={setNext}
        error={wrong('/next')}
      />
      <Button type="submit" kind="main" disabled={change.isPending}>
        Change the password
      </Button>
      {change.error && items.length === 0 && <Failure error={change.error} />}
      {change.data && (
        <Notice kind="good">
          <p>{formatPasswordChanged(change.data.ended)}</p>
        </Notice>
      )}
    </form>
  )
}
