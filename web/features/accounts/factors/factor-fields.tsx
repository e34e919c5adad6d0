import { useMutation } from '@tanstack/react-query'
import { passkeysPossible } from '../../../api/accounts/factors.ts'
import { ApiError } from '../../../api/errors.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'

interface CodeFieldProps {
  /** Whether the account has an authenticator app; else only a recovery code can be typed. */
  app: boolean
  code: string
  error: Error | null
  onCode: (code: string) => void
  autoFocus?: boolean
}

/** The code of an authenticator app, or a recovery code. */
export function CodeField({ app, code, error, onCode, autoFocus }: CodeFieldProps) {
  return (
    <TextField
      label={app ? 'Code' : 'Recovery code'}
      hint={
        app
          ? 'The six digits your authenticator app shows now, or one of your recovery codes.'
          : 'One of the ten codes you printed or copied. Each is good once.'
      }
      autoComplete="one-time-code"
      autoCapitalize="characters"
      inputMode={app ? 'text' : undefined}
      spellCheck={false}
      required
      autoFocus={autoFocus}
      maxLength={60}
      error={wrongAt(error, '/code')}
      value={code}
      onChange={(event) => onCode(event.target.value)}
    />
  )
}

const wrongAt = (error: Error | null, pointer: string): string | undefined =>
  error instanceof ApiError ? error.items.find((item) => item.pointer === pointer)?.detail : undefined

interface PasskeyButtonProps<Answer> {
  children: React.ReactNode
  main?: boolean
  use: () => Promise<Answer>
  onDone: (answer: Answer) => void
}

/** Has a passkey sign; nothing where this browser, or this address, can use none. */
export function PasskeyButton<Answer>({ children, main, use, onDone }: PasskeyButtonProps<Answer>) {
  const act = useMutation({ mutationFn: use, onSuccess: onDone })
  if (!passkeysPossible()) return null
  return (
    <div className="passkey-button">
      <Button kind={main ? 'main' : undefined} disabled={act.isPending} onClick={() => act.mutate()}>
        {children}
      </Button>
      {act.error && <Failure error={act.error} />}
    </div>
  )
}
