import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'wouter'
import type { FactorOverview } from '#contract/accounts/factors.ts'
import { changeFactorRules, factorRulesQuery } from '../../api/accounts/accounts.ts'
import { ROLE_WORDS, type Role } from '../../domain/accounts/roles.ts'
import { paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Failure } from '../../ui/failure.tsx'
import { TextField } from '../../ui/field.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { today as todayIn } from '../../words/today.ts'
import { formatRules, formatWithout } from './format-factor-rules.ts'
import './accounts.css'

/** Which roles need a second factor, and from which day on. */
export default function FactorRulesPage() {
  const overview = useQuery(factorRulesQuery)
  const today = todayIn(null)
  return (
    <Page
      title="Second factor by role"
      answer={overview.data && formatRules(overview.data, today)}
      why="From its day on, whoever has the role and no second factor sets one up at the next sign-in, and can do nothing else before."
      error={overview.data ? null : overview.error}
      onRetry={overview.refetch}
      controls={
        <Link href={paths.accounts} className="button">
          Accounts
        </Link>
      }
    >
      {overview.data && (
        <Section title="Roles" note="open sessions go on until they end">
          <RulesForm overview={overview.data} today={today} />
        </Section>
      )}
    </Page>
  )
}

function RulesForm({ overview, today }: { overview: FactorOverview; today: string }) {
  const [days, setDays] = useState(
    () => new Map<Role, string>(overview.rules.map(({ role, fromDay }) => [role, fromDay])),
  )
  const client = useQueryClient()
  const change = useMutation({
    mutationFn: () => changeFactorRules({ rules: [...days].map(([role, fromDay]) => ({ role, fromDay })) }),
    onSuccess: (next) => client.setQueryData(factorRulesQuery.queryKey, next),
  })
  const set = (role: Role, day: string | null) => {
    const next = new Map(days)
    if (day === null) next.delete(role)
    else next.set(role, day)
    setDays(next)
    change.reset()
  }
  return (
    <form
      className="accounts-form"
      onSubmit={(event) => {
        event.preventDefault()
        change.mutate()
      }}
    >
      {ROLE_WORDS.map(({ role, title }) => (
        <div key={role} className="accounts-rule">
          <label className="tick">
            <input type="checkbox" checked={days.has(role)} onChange={() => set(role, days.has(role) ? null : today)} />
            <span>
              <b>{title}</b>
              <span className="muted small accounts-rule-counts">{formatWithout(overview, role)}</span>
            </span>
          </label>
          {days.has(role) && (
            <TextField
              label="From"
              aria-label={`From which day on: ${title}`}
              type="date"
              required
              value={days.get(role)}
              onChange={(event) => set(role, event.target.value)}
            />
          )}
        </div>
      ))}
      <div className="accounts-buttons">
        <Button type="submit" kind="main" disabled={change.isPending}>
          Save
        </Button>
      </div>
      {change.error && <Failure error={change.error} />}
      {change.data && (
        <Notice kind="good">
          <p>Saved. It takes effect at the next sign-in.</p>
        </Notice>
      )}
    </form>
  )
}
