import { useQuery } from '@tanstack/react-query'
import { ownSessionsQuery } from '../../../api/accounts/account.ts'
import { sessionQuery } from '../../../api/accounts/session.ts'
import { soldierQuery } from '../../../api/soldiers/soldiers.ts'
import { unitsQuery } from '../../../api/soldiers/units.ts'
import { ROLE_WORDS } from '../../../domain/accounts/roles.ts'
import { listName } from '../../../domain/soldiers/format-person.ts'
import { fullUnitName } from '../../../domain/soldiers/unit-tree.ts'
import { Page } from '../../../ui/page.tsx'
import { Section } from '../../../ui/section.tsx'
import { today as todayIn } from '../../../words/today.ts'
import { CalendarLinkPart } from './calendar-link.tsx'
import { formatSessions } from './format-account.ts'
import { PasswordForm } from './password-form.tsx'
import { SessionsList } from './sessions-list.tsx'
import { TokensPart } from './tokens-part.tsx'
import '../../../ui/reasoned-form.css'
import './account.css'

/** One's own account: where one is signed in, the password, and what one may see. */
export default function AccountPage() {
  const account = useQuery(sessionQuery).data
  const sessions = useQuery(ownSessionsQuery)
  const soldier = useQuery(soldierQuery(account?.soldierId ?? '')).data
  const units = useQuery(unitsQuery).data ?? []
  const unit = fullUnitName(units, account?.unitId ?? null)
  return (
    <Page
      title="My account"
      answer={sessions.data && formatSessions(sessions.data.length)}
      why="Sign out what you do not know or no longer use. Where a session is from is kept no finer than its network."
      error={sessions.data ? null : sessions.error}
      onRetry={sessions.refetch}
    >
      {account && sessions.data && (
        <>
          <Section title="Signed in">
            <SessionsList sessions={sessions.data} today={todayIn(null)} />
          </Section>
          <Section title="Calendar" note="your dates in a calendar of your own">
            <CalendarLinkPart today={todayIn(null)} />
          </Section>
          <Section title="Scripts" note="tokens for programs of your own">
            <TokensPart account={account} units={units} today={todayIn(null)} />
          </Section>
          <div className="columns halves">
            <Section title="Password" note="a change ends all other sessions">
              <PasswordForm name={account.name} />
            </Section>
            <Section title="What this account is for" note={<bdi>{account.name}</bdi>}>
              <ul className="account-roles">
                {ROLE_WORDS.filter(({ role }) => account.roles.includes(role)).map(({ role, title, lets }) => (
                  <li key={role}>
                    <b>{title}</b>: {lets}
                  </li>
                ))}
                {soldier && (
                  <li>
                    Soldier on the roster: <bdi>{listName(soldier)}</bdi>
                  </li>
                )}
                {unit && <li>Unit: {unit}</li>}
              </ul>
              <p className="muted small account-everywhere">An administrator changes roles, soldier and unit.</p>
            </Section>
          </div>
        </>
      )}
    </Page>
  )
}
