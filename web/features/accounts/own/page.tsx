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
import { FactorsPart } from '../factors/factors-part.tsx'
import { CalendarLinkPart } from './calendar-link.tsx'
import { formatSessions } from './format-account.ts'
import { IdentitiesPart } from './identities-part.tsx'
import { MailPart } from './mail-part.tsx'
import { PasswordForm } from './password-form.tsx'
import { PushPart } from './push-part.tsx'
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
      why="Sign out any session you do not recognize or no longer use. Only its network is kept, not the exact address."
      error={sessions.data ? null : sessions.error}
      onRetry={sessions.refetch}
    >
      {account && sessions.data && (
        <>
          <Section title="Signed in">
            <SessionsList sessions={sessions.data} today={todayIn(null)} />
          </Section>
          <Section title="Second factor" note="beside the password">
            <FactorsPart name={account.name} today={todayIn(null)} />
          </Section>
          <IdentitiesPart today={todayIn(null)} />
          <Section title="Calendar" note="your dates in a calendar of your own">
            <CalendarLinkPart today={todayIn(null)} />
          </Section>
          <Section title="Mail" note="what concerns you, at an address of yours">
            <MailPart />
          </Section>
          <Section title="Notifications" note="on this device, beside the notices inside">
            <PushPart account={account} today={todayIn(null)} />
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
