import { useState } from 'react'
import { useLocation } from 'wouter'
import type { InvitationLinks } from '#contract/accounts/several.ts'
import { listRoles } from '../../../domain/accounts/roles.ts'
import { paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { Section } from '../../../ui/section.tsx'
import { TableFiles } from '../../../ui/table-files.tsx'
import { formatMoment } from '../../../words/format-moment.ts'
import type { DraftAccount } from './draft-account.ts'

interface LinksPartProps {
  drafts: readonly DraftAccount[]
  links: InvitationLinks['items']
  today: string
}

const addressOf = (token: string): string => `${location.origin}${paths.welcome}#${token}`

/** The links, this once: a slip for each to print and cut, or all as a file. */
export function LinksPart({ drafts, links, today }: LinksPartProps) {
  const [, go] = useLocation()
  const [leaving, setLeaving] = useState(false)
  const slips = links.map((link, at) => ({ ...link, ...drafts[at]!, name: link.name, address: addressOf(link.token) }))
  return (
    <Section title="Links to hand out" className="several-links">
      <div className="several-controls no-print">
        <Button kind="main" onClick={() => window.print()}>
          Print the slips
        </Button>
        <Button onClick={() => setLeaving(true)}>Done</Button>
      </div>
      <ul className="several-slips">
        {slips.map(({ id, name, soldier, roles, address, expiresAt }) => (
          <li key={id}>
            <p>
              <b>
                <bdi>{soldier.soldier}</bdi>
              </b>
            </p>
            <p>
              Your name to sign in: <b>{name}</b> <span className="muted">({listRoles(roles)})</span>
            </p>
            <p className="several-address">{address}</p>
            <p className="muted small">
              Open it by {formatMoment(expiresAt, today)} and choose a password. It works once; give it to nobody else.
            </p>
          </li>
        ))}
      </ul>
      <TableFiles
        caption="Account links"
        rows={() => [
          ['Soldier', 'Name', 'Roles', 'Link', 'Good until'],
          ...slips.map(({ soldier, name, roles, address, expiresAt }) => [
            soldier.soldier,
            name,
            listRoles(roles),
            address,
            expiresAt,
          ]),
        ]}
      />
      {leaving && (
        <ConfirmDialog
          title="Are all links printed or saved?"
          confirm="They are; go on"
          leave="Back to the links"
          onConfirm={async () => go(paths.accounts)}
          onClose={() => setLeaving(false)}
        >
          <p>They are not shown again. For a link that is lost, make a new one under Accounts.</p>
        </ConfirmDialog>
      )}
    </Section>
  )
}
