import { useMutation, useQuery } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import type { Confirmation } from '#contract/accounts/factors.ts'
import { confirmByPasskey, confirmIdentity, findConfirmation, passkeysPossible } from '../../../api/accounts/factors.ts'
import { beginSignOn, ownIdentitiesQuery } from '../../../api/sign-on/sign-on.ts'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { CodeField, PasskeyButton } from './factor-fields.tsx'
import './factors.css'

interface IdentityDialogProps {
  /** For the sake of whatever keeps passwords. */
  name: string
  /** Told whether they did. */
  onEnd: (isConfirmed: boolean) => void
}

/** Asks once more who one is, before what cannot be undone; what was being done goes on after it by itself. */
export default function IdentityDialog({ name, onEnd }: IdentityDialogProps) {
  const ways = useQuery({ queryKey: ['confirmation'], queryFn: findConfirmation, gcTime: 0, staleTime: 0 })
  const [given, setGiven] = useState('')
  const [wantsCode, setWantsCode] = useState(false)
  const isConfirmed = useRef(false)
  const hasFactor = ways.data && (ways.data.app || ways.data.passkey)
  const nothing = ways.data && !hasFactor && !ways.data.password
  // With a passkey and no app the one button of the dialog uses it.
  const usesPasskey = ways.data?.passkey && !ways.data.app && !wantsCode && passkeysPossible()
  const confirm = async () => {
    if (nothing) return
    if (!ways.data) throw new Error('How you can show it is still being looked up. Press it again in a moment.')
    await (usesPasskey ? confirmByPasskey() : confirmIdentity(hasFactor ? { code: given } : { password: given }))
    isConfirmed.current = true
  }
  return (
    <ConfirmDialog
      title="Is it you?"
      confirm={nothing ? 'Cancel' : usesPasskey ? 'Use a passkey' : 'Go on'}
      leave={nothing ? null : 'Cancel'}
      onConfirm={confirm}
      onClose={() => onEnd(isConfirmed.current)}
    >
      <p>
        Confirm who you are, so that nobody else does this on a screen you left open. What you began then goes on; you
        are not asked again for ten minutes.
      </p>
      <input type="text" autoComplete="username" value={name} readOnly hidden />
      {ways.error && <Failure error={ways.error} onRetry={ways.refetch} />}
      {nothing && <ByProvider />}
      {usesPasskey && (
        <Button kind="quiet" onClick={() => setWantsCode(true)}>
          Use a recovery code instead
        </Button>
      )}
      {ways.data && !nothing && !usesPasskey && (
        <Given ways={ways.data} given={given} onGiven={setGiven} onPasskey={() => onEnd(true)} />
      )}
    </ConfirmDialog>
  )
}

/** An account that has neither password nor factor shows it to the provider that signs it in; the page is left for that. */
function ByProvider() {
  const own = useQuery(ownIdentitiesQuery)
  const begin = useMutation({
    mutationFn: (providerId: string) =>
      beginSignOn({ providerId, returnPath: location.pathname + location.search, anew: true }),
    onSuccess: ({ address }) => location.assign(address),
  })
  const linked = own.data?.items.filter(({ id }) => id !== null) ?? []
  return (
    <>
      {own.error && <Failure error={own.error} onRetry={own.refetch} />}
      {linked.length > 0 && (
        <p>
          Sign in there once more; you come back to this page, and can do it within ten minutes. Keep what you have
          typed elsewhere first.
        </p>
      )}
      {linked.map(({ providerId, name }) => (
        <Button key={providerId} disabled={begin.isPending || begin.isSuccess} onClick={() => begin.mutate(providerId)}>
          <bdi>Sign in with {name}</bdi>
        </Button>
      ))}
      {begin.error && <Failure error={begin.error} />}
      <p className="muted small">
        If you are asked again afterwards, it does not say when you signed in. Then have an administrator send you a
        link to choose a password here.
      </p>
    </>
  )
}

interface GivenProps {
  ways: Confirmation
  given: string
  onGiven: (given: string) => void
  onPasskey: () => void
}

function Given({ ways, given, onGiven, onPasskey }: GivenProps) {
  if (ways.password) {
    return (
      <TextField
        label="Your password"
        type="password"
        autoComplete="current-password"
        required
        autoFocus
        value={given}
        onChange={(event) => onGiven(event.target.value)}
      />
    )
  }
  return (
    <>
      {ways.passkey && (
        <PasskeyButton use={confirmByPasskey} onDone={onPasskey}>
          Use a passkey
        </PasskeyButton>
      )}
      <CodeField app={ways.app} code={given} error={null} onCode={onGiven} autoFocus />
    </>
  )
}
