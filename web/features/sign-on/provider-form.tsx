import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { ApiError } from '../../api/errors.ts'
import { invalidateProviders, putProvider } from '../../api/sign-on/providers.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { AccountsPart } from './accounts-part.tsx'
import { type DraftProvider, toBody } from './draft-provider.ts'

interface ProviderFormProps {
  start: DraftProvider
  units: readonly Unit[]
  onDone: (name: string) => void
  onLeave: () => void
}

/** All that is kept of a provider; its client secret is typed and never shown. */
export function ProviderForm({ start, units, onDone, onLeave }: ProviderFormProps) {
  const [draft, setDraft] = useState(start)
  const change = (part: Partial<DraftProvider>) => setDraft({ ...draft, ...part })
  const client = useQueryClient()
  const store = useMutation({
    mutationFn: () => putProvider(draft.id, toBody(draft)),
    onSuccess: async () => {
      await invalidateProviders(client)
      onDone(draft.name)
    },
  })
  const items = store.error instanceof ApiError ? store.error.items : []
  const wrong = (pointer: string) => items.find((item) => item.pointer === pointer)?.detail
  return (
    <form
      className="sign-on-form"
      onSubmit={(event) => {
        event.preventDefault()
        store.mutate()
      }}
    >
      <Addresses draft={draft} />
      <ClientFields draft={draft} change={change} wrong={wrong} />
      <AccountsPart draft={draft} change={change} units={units} wrong={wrong} />
      <div className="sign-on-buttons">
        <Button type="submit" kind="main" disabled={store.isPending}>
          Store it
        </Button>
        <Button onClick={onLeave}>Cancel</Button>
      </div>
      {store.error && <Failure error={store.error} />}
    </form>
  )
}

/** What the provider must be told of us before it gives a client id. */
function Addresses({ draft: { id, returnAddress } }: { draft: DraftProvider }) {
  if (returnAddress === null) return null
  const { origin } = new URL(returnAddress)
  const addresses = [
    ['Return address (redirect URI)', returnAddress],
    ['After signing out (post-logout redirect URI)', `${origin}/sign-in`],
    ['Called when somebody signs out there (back-channel logout URI)', `${origin}/api/sign-on/logout/${id}`],
  ] as const
  return (
    <fieldset className="sign-on-part">
      <legend>Register this server at the provider</legend>
      <p className="muted small">As a confidential web client with the code flow. It wants these addresses:</p>
      {addresses.map(([label, value]) => (
        <TextField
          key={label}
          className="sign-on-wide"
          label={label}
          readOnly
          value={value}
          onFocus={(event) => event.target.select()}
        />
      ))}
    </fieldset>
  )
}

interface FieldsProps {
  draft: DraftProvider
  change: (part: Partial<DraftProvider>) => void
  wrong: (pointer: string) => string | undefined
}

/** What the provider told us. */
function ClientFields({ draft, change, wrong }: FieldsProps) {
  const text = (name: 'name' | 'issuer' | 'clientId' | 'scopes') => ({
    required: true,
    autoComplete: 'off',
    spellCheck: false,
    value: draft[name],
    error: wrong(`/${name}`),
    onChange: (event: { target: { value: string } }) => change({ [name]: event.target.value }),
  })
  return (
    <fieldset className="sign-on-part">
      <legend>What the provider says</legend>
      <TextField label="Name on the sign-in page" hint="Sign in with …" maxLength={60} {...text('name')} />
      <TextField
        className="sign-on-wide"
        label="Issuer"
        type="url"
        hint="As the provider gives it, to the last letter: https://…"
        {...text('issuer')}
      />
      <TextField label="Client id" {...text('clientId')} />
      <TextField
        label="Client secret"
        type="password"
        autoComplete="off"
        hint={draft.hasSecret ? 'One is kept. Leave this empty to keep it.' : 'It is encrypted, and never shown again.'}
        disabled={draft.noSecret}
        required={!draft.hasSecret && !draft.noSecret}
        value={draft.typedSecret}
        error={wrong('/clientSecret')}
        onChange={(event) => change({ typedSecret: event.target.value })}
      />
      <label className="tick">
        <input
          type="checkbox"
          checked={draft.noSecret}
          onChange={(event) => change({ noSecret: event.target.checked, typedSecret: '' })}
        />
        <span>The provider asks for no secret</span>
      </label>
      <TextField label="Scopes" hint="With one space between; openid is one of them." {...text('scopes')} />
      <label className="tick">
        <input
          type="checkbox"
          checked={draft.enabled}
          onChange={(event) => change({ enabled: event.target.checked })}
        />
        <span>
          On <span className="muted small">Off, it signs nobody in; open sessions go on.</span>
        </span>
      </label>
    </fieldset>
  )
}
