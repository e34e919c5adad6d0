import { useInfiniteQuery, useQuery } from '@tanstack/react-query'
import { useDeferredValue, useState } from 'react'
import { Link } from 'wouter'
import { ACCOUNT_STATES } from '#contract/accounts/account-states.ts'
import { accountsQuery } from '../../api/accounts/accounts.ts'
import { sessionQuery } from '../../api/accounts/session.ts'
import { unitsQuery } from '../../api/soldiers/units.ts'
import { paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Empty } from '../../ui/empty.tsx'
import { SelectField, TextField } from '../../ui/field.tsx'
import { More } from '../../ui/more.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { useFilters } from '../../ui/use-filters.ts'
import { today as todayIn } from '../../words/today.ts'
import { AccountsTable } from './accounts-table.tsx'
import { Doing, type Doings } from './doing.tsx'
import { formatAccounts } from './format-accounts.ts'
import './accounts.css'

const STATE_CHOICES = { active: 'Sign in', invited: 'Invited', disabled: 'Disabled' } as const

/** The accounts, for administrators. What is typed to search stays out of the address: names do not belong there. */
export default function AccountsPage() {
  const [filters, setFilters] = useFilters(['state'])
  const [typed, setTyped] = useState('')
  const [doing, setDoing] = useState<Doings>({ what: 'nothing' })
  const q = useDeferredValue(typed.trim())
  const state = ACCOUNT_STATES.find((each) => each === filters.state)
  const pages = useInfiniteQuery(accountsQuery({ q: q || undefined, state }))
  const units = useQuery(unitsQuery).data ?? []
  const own = useQuery(sessionQuery).data?.accountId
  const accounts = pages.data?.pages.flatMap(({ items }) => items)
  const today = todayIn(null)
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
      <Doing doing={doing} units={units} ownId={own} today={today} onDoing={setDoing} />
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
