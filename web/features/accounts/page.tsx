import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { Link } from 'wouter'
import { ACCOUNT_STATES } from '#contract/accounts/account-states.ts'
import type { Account, InvitationLink } from '#contract/accounts/accounts.ts'
import { accountsQuery } from '../../api/accounts/accounts.ts'
import { sessionQuery } from '../../api/accounts/session.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { More } from '../../ui/more.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { today as todayIn } from '../../words/today.ts'
import { AccountForm } from './account-form.tsx'
import { AccountsTable } from './accounts-table.tsx'
import { formatAccounts } from './format-accounts.ts'
import { InviteForm } from './invite-form.tsx'
import { LinkNotice } from './link-notice.tsx'
import './accounts.css'

const STATE_CHOICES = { active: 'Sign in', invited: 'Invited', disabled: 'Disabled' } as const

/** What is going on above the list. */
type Doing =
  | { what: 'nothing' }
  | { what: 'inviting' }
  | { what: 'changing'; account: Account }
  | { what: 'linking'; name: string; link: InvitationLink }
  | { what: 'said'; said: string }

/** The accounts, for administrators. What is typed to search stays out of the address: names do not belong there. */
export default function AccountsPage() {
  const [filters, setFilters] = useFilters(['state'])
  const [typed, setTyped] = useState('')
  const [doing, setDoing] = useState<Doing>({ what: 'nothing' })
  const q = useDeferredValue(typed.trim())
  const state = ACCOUNT_STATES.find((each) => each === filters.state)
  const pages = useInfiniteQuery(accountsQuery({ q: q || undefined, state }))
  const units = useQuery(unitsQuery).data ?? []
  const own = useQuery(sessionQuery).data?.accountId
  const accounts = pages.data?.pages.flatMap(({ items }) => items)
  const today = todayIn(null)
  const stop = () => setDoing({ what: 'nothing' })
  const showLink = (name: string, link: InvitationLink) => setDoing({ what: 'linking', name, link })
  return (
    <Page
      title="Accounts"
      answer={accounts && formatAccounts(accounts, pages.hasNextPage, q !== '' || state !== undefined)}
      why="An account is made with a link; whoever it is for opens it once and chooses a password that nobody else learns."
      error={accounts ? null : pages.error}
      onRetry={pages.refetch}
      busy={pages.isPlaceholderData}
      controls={
        <>
          <TextField
            label="Name"
            type="search"
            autoComplete="off"
            spellCheck={false}
            value={typed}
            onChange={(event) => setTyped(event.target.value)}
          />
          <SelectField
            label="State"
            value={state ?? ''}
            onChange={(event) => setFilters({ state: event.target.value })}
          >
            <option value="">All</option>
            {ACCOUNT_STATES.map((each) => (
              <option key={each} value={each}>
                {STATE_CHOICES[each]}
              </option>
            ))}
          </SelectField>
          <Link href={paths.severalAccounts} className="button push">
            Accounts for many
          </Link>
          <Link href={paths.factorRules} className="button">
            Second factor by role
          </Link>
          <Button kind="main" onClick={() => setDoing({ what: 'inviting' })}>
            Invite somebody
          </Button>
        </>
      }
    >
      {doing.what === 'said' && (
        <Notice kind="good">
          <p>{doing.said}</p>
        </Notice>
      )}
      {doing.what === 'linking' && (
        <LinkNotice key={doing.link.token} name={doing.name} link={doing.link} today={today} onDone={stop} />
      )}
      {doing.what === 'inviting' && (
        <Section title="Invite somebody">
          <InviteForm units={units} onInvited={showLink} onCancel={stop} />
        </Section>
      )}
      {doing.what === 'changing' && (
        <Section title={`Change ${doing.account.name}`}>
          <AccountForm
            key={doing.account.id}
            account={doing.account}
            isOwn={doing.account.id === own}
            units={units}
            onDone={(said) => setDoing({ what: 'said', said })}
            onLink={showLink}
            onCancel={stop}
          />
        </Section>
      )}
      {accounts && (
        <Section title="Accounts" note="by name">
          {accounts.length === 0 ? (
            <Empty>
              <p>Clear the name or the state to see the others.</p>
            </Empty>
          ) : (
            <AccountsTable
              accounts={accounts}
              pages={pages}
              units={units}
              today={today}
              onChange={(account) => {
                setDoing({ what: 'changing', account })
                window.scrollTo({ top: 0 })
              }}
            />
          )}
          <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
            Show more accounts
          </More>
        </Section>
      )}
    </Page>
  )
}
