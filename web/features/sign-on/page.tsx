import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { ProviderList } from '#contract/sign-on/providers.ts'
import { foldPasswords, invalidateProviders, providersQuery } from '../../api/sign-on/providers.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { type DraftProvider, newDraft, toDraft } from './draft-provider.ts'
import { formatProviders } from './format-providers.ts'
import { ProviderForm } from './provider-form.tsx'
import { ProviderRow } from './provider-row.tsx'
import './sign-on.css'

/** The providers that sign people in, for administrators. */
export default function SignOnPage() {
  const list = useQuery(providersQuery)
  const units = useQuery(unitsQuery).data ?? []
  const [draft, setDraft] = useState<DraftProvider | null>(null)
  const [said, setSaid] = useState<string | null>(null)
  const edit = (next: DraftProvider | null) => {
    setDraft(next)
    setSaid(null)
    window.scrollTo({ top: 0 })
  }
  return (
    <Page
      title="Single sign-on"
      answer={list.data && formatProviders(list.data.items)}
      why="Your organisation’s directory can sign people in by OpenID Connect. Accounts are linked by what never changes there, not by mail address."
      error={list.data ? null : list.error}
      onRetry={list.refetch}
      controls={
        list.data?.publicAddress && (
          <Button kind="main" onClick={() => edit(newDraft(list.data.publicAddress))}>
            Add a provider
          </Button>
        )
      }
    >
      {said && (
        <Notice kind="good">
          <p>{said}</p>
        </Notice>
      )}
      {list.data && !list.data.publicAddress && (
        <Notice kind="bad">
          <p>
            This server does not know the address people open it by, so no provider can send them back. Set
            REVIEWSTAND_ADDRESS and start it again.
          </p>
        </Notice>
      )}
      {draft && (
        <Section title={draft.name ? `Change ${draft.name}` : 'Add a provider'}>
          <ProviderForm
            key={draft.id}
            start={draft}
            units={units}
            onLeave={() => setDraft(null)}
            onDone={(name) => {
              setDraft(null)
              setSaid(`${name} is stored. It takes effect at the next sign-in; test it now.`)
            }}
          />
        </Section>
      )}
      {list.data && (
        <Section title="Providers" note="by name">
          {list.data.items.length === 0 ? (
            <Empty>
              <p>Everybody signs in with name and password. Add the directory your people are in.</p>
            </Empty>
          ) : (
            <ul className="sign-on-list">
              {list.data.items.map((provider) => (
                <ProviderRow key={provider.id} provider={provider} onChange={() => edit(toDraft(provider))} />
              ))}
            </ul>
          )}
        </Section>
      )}
      {list.data && list.data.items.length > 0 && <FoldPart list={list.data} />}
    </Page>
  )
}

/** Whether the sign-in page shows name and password at once. */
function FoldPart({ list }: { list: ProviderList }) {
  const client = useQueryClient()
  const fold = useMutation({ mutationFn: foldPasswords, onSuccess: () => invalidateProviders(client) })
  return (
    <Section title="Sign-in page">
      <label className="tick">
        <input
          type="checkbox"
          checked={list.foldsPasswords}
          disabled={fold.isPending}
          onChange={(event) => fold.mutate(event.target.checked)}
        />
        <span>
          Fold name and password away{' '}
          <span className="muted small">
            They let in all the same: the last administrator with a password always has a way in.
          </span>
        </span>
      </label>
      {fold.error && <Failure error={fold.error} />}
    </Section>
  )
}
