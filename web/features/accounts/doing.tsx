import type { Account, InvitationLink } from '#contract/accounts/accounts.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { Notice } from '../../ui/notice.tsx'
import { Section } from '../../ui/section.tsx'
import { AccountForm } from './account-form.tsx'
import { InviteForm } from './invite-form.tsx'
import { LinkNotice } from './link-notice.tsx'

/** What is going on above the list of accounts. */
export type Doings =
  | { what: 'nothing' }
  | { what: 'inviting' }
  | { what: 'changing'; account: Account }
  | { what: 'linking'; name: string; link: InvitationLink }
  | { what: 'said'; said: string }

interface DoingProps {
  doing: Doings
  units: readonly Unit[]
  /** The account of whoever looks. */
  ownId: string | undefined
  today: string
  onDoing: (doing: Doings) => void
}

/** The form or the words above the list of accounts. */
export function Doing({ doing, units, ownId, today, onDoing }: DoingProps) {
  const stop = () => onDoing({ what: 'nothing' })
  const showLink = (name: string, link: InvitationLink) => onDoing({ what: 'linking', name, link })
  switch (doing.what) {
    case 'nothing':
      return null
    case 'said':
      return (
        <Notice kind="good">
          <p>{doing.said}</p>
        </Notice>
      )
    case 'linking':
      return <LinkNotice key={doing.link.token} name={doing.name} link={doing.link} today={today} onDone={stop} />
    case 'inviting':
      return (
        <Section title="Invite somebody">
          <InviteForm units={units} onInvited={showLink} onCancel={stop} />
        </Section>
      )
    case 'changing':
      return (
        <Section title={`Change ${doing.account.name}`}>
          <AccountForm
            key={doing.account.id}
            account={doing.account}
            isOwn={doing.account.id === ownId}
            units={units}
            onDone={(said) => onDoing({ what: 'said', said })}
            onLink={showLink}
            onCancel={stop}
          />
        </Section>
      )
  }
}
