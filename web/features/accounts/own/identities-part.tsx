import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { useSearchParams } from 'wouter'
import type { OwnIdentity } from '#contract/sign-on/sign-on.ts'
import { ApiError } from '../../../api/errors.ts'
import { beginLink, ownIdentitiesQuery, unlinkOwn } from '../../../api/sign-on/sign-on.ts'
import { formatSignOnProblem } from '../../../domain/sign-on/format-sign-on-problem.ts'
import { Button } from '../../../ui/button.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Section } from '../../../ui/section.tsx'
import { formatMoment } from '../../../words/format-moment.ts'

/** The providers one's account can be signed in by; nothing where this server has none. */
export function IdentitiesPart({ today }: { today: string }) {
  const [params] = useSearchParams()
  const own = useQuery(ownIdentitiesQuery)
  const [asked, setAsked] = useState<OwnIdentity | null>(null)
  const identities = own.data?.items ?? []
  if (identities.length === 0) return null
  const tried = identities.find(({ providerId }) => providerId === params.get('provider'))
  const problem = formatSignOnProblem(params.get('signOn'), tried?.name)
  return (
    <Section title="Single sign-on" note="other ways into this account">
      {problem && (
        <Notice kind="bad">
          <p>{problem}</p>
        </Notice>
      )}
      <ul className="account-identities">
        {identities.map((identity) => (
          <li key={identity.providerId}>
            <span>
              <b>
                <bdi>{identity.name}</bdi>
              </b>
              {identity.linkedAt ? `, linked since ${formatMoment(identity.linkedAt, today)}` : ', not linked'}
            </span>
            {own.data?.hasPassword && asked?.providerId !== identity.providerId && (
              <Button
                aria-label={`${identity.id ? 'Unlink' : 'Link'}: ${identity.name}`}
                onClick={() => setAsked(identity)}
              >
                {identity.id ? 'Unlink' : 'Link'}
              </Button>
            )}
            {asked?.providerId === identity.providerId && (
              <PasswordFirst key={identity.providerId} identity={identity} onLeave={() => setAsked(null)} />
            )}
          </li>
        ))}
      </ul>
      {!own.data?.hasPassword && (
        <p className="muted small">
          Your account has no password. To link or unlink it, ask an administrator for a link to choose one.
        </p>
      )}
    </Section>
  )
}

/** Asks for the password, then goes to the provider to be linked, or unlinks. */
function PasswordFirst({ identity, onLeave }: { identity: OwnIdentity; onLeave: () => void }) {
  const [password, setPassword] = useState('')
  const client = useQueryClient()
  const { id, providerId, name } = identity
  const act = useMutation({
    mutationFn: async () => {
      if (id) await unlinkOwn(id, { password })
      else location.assign((await beginLink({ providerId, password })).address)
    },
    onSuccess: () => {
      if (!id) return
      onLeave()
      return client.invalidateQueries({ queryKey: ['account'] })
    },
  })
  const items = act.error instanceof ApiError ? act.error.items : []
  return (
    <form
      className="account-form"
      onSubmit={(event) => {
        event.preventDefault()
        act.mutate()
      }}
    >
      <TextField
        label="Your password"
        type="password"
        autoComplete="current-password"
        required
        autoFocus
        hint={
          id
            ? 'Other sessions opened that way end. Your password stays the way in.'
            : `You go to ${name} and sign in there as yourself.`
        }
        error={items.find(({ pointer }) => pointer === '/password')?.detail}
        value={password}
        onChange={(event) => setPassword(event.target.value)}
      />
      <div className="reasoned-form-buttons">
        <Button type="submit" kind="main" disabled={act.isPending}>
          {id ? 'Unlink it' : `Go to ${name}`}
        </Button>
        <Button onClick={onLeave}>Leave it as it is</Button>
      </div>
      {act.error && items.length === 0 && <Failure error={act.error} />}
    </form>
  )
}
