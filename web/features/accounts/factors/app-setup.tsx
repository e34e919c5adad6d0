import { useMutation } from '@tanstack/react-query'
import { useState } from 'react'
import type { NewApp } from '#contract/accounts/factors.ts'
import { confirmNewApp } from '../../../api/accounts/factors.ts'
import { ApiError } from '../../../api/errors.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Qr } from '../../../ui/qr.tsx'

interface AppSetupProps {
  app: NewApp
  /** Told the recovery codes that come with a first factor; null: there are some. */
  onDone: (codes: string[] | null) => void
  onLeave: () => void
}

/** A new authenticator app: its key to scan or to type, and its first code, without which it does not count. */
export function AppSetup({ app, onDone, onLeave }: AppSetupProps) {
  const [code, setCode] = useState('')
  const confirm = useMutation({ mutationFn: () => confirmNewApp(code), onSuccess: ({ codes }) => onDone(codes) })
  const items = confirm.error instanceof ApiError ? confirm.error.items : []
  return (
    <form
      className="factor-setup"
      onSubmit={(event) => {
        event.preventDefault()
        confirm.mutate()
      }}
    >
      <Qr text={app.address} label="QR code of the new key, for the camera of an authenticator app" />
      <div className="factor-steps">
        <p>
          Scan this with an authenticator app on your phone. On this same phone,{' '}
          <a href={app.address}>open it in the app</a>.
        </p>
        <p>
          Where neither works, type this key there; codes by the time, six digits:
          <code className="factor-key">{inGroups(app.key)}</code>
        </p>
        <TextField
          label="The code it shows now"
          autoComplete="one-time-code"
          inputMode="numeric"
          required
          maxLength={10}
          error={items.find(({ pointer }) => pointer === '/code')?.detail}
          value={code}
          onChange={(event) => setCode(event.target.value)}
        />
        <div className="reasoned-form-buttons">
          <Button type="submit" kind="main" disabled={confirm.isPending}>
            Set it up
          </Button>
          <Button onClick={onLeave}>Leave it</Button>
        </div>
        {confirm.error && items.length === 0 && <Failure error={confirm.error} />}
      </div>
    </form>
  )
}

const inGroups = (key: string): string => key.replace(/(.{4})(?=.)/g, '$1 ')
