import type { Account } from '#contract/accounts/accounts.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { listRoles } from '../../domain/accounts/roles.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { momentFact } from '../../parts/readiness/facts.ts'
import { Button } from '../../ui/button.tsx'
import { Table } from '../../ui/table.tsx'
import type { Pages } from '../../ui/table-files.tsx'
import { formatMoment } from '../../words/format-moment.ts'
import { formatState } from './format-state.ts'

interface AccountsTableProps {
  accounts: readonly Account[]
  pages: Pages
  units: readonly Unit[]
  today: string
  onChange: (account: Account) => void
}

/** The accounts, one a line. */
export function AccountsTable({ accounts, pages, units, today, onChange }: AccountsTableProps) {
  return (
    <Table<(typeof accounts)[number]>
      caption="Accounts"
      pages={pages}
      rows={accounts}
      rowKey={({ id }) => id}
      columns={[
        {
          head: 'Name',
          cell: ({ name }) => (
            <b>
              <bdi>{name}</bdi>
            </b>
          ),
        },
        { head: 'Roles', bare: true, cell: ({ roles }) => listRoles(roles) },
        { head: 'Soldier', cell: ({ soldier }) => soldier && <bdi>{soldier}</bdi> },
        { head: 'Over', cell: ({ unitId }) => fullUnitName(units, unitId) },
        { head: 'State', bare: true, cell: (account) => formatState(account, today) },
        { head: 'Second factor', tight: true, cell: ({ hasFactor }) => (hasFactor ? 'Yes' : 'No') },
        {
          head: 'Last seen',
          facts: [momentFact('Last seen', ({ lastSeenAt }) => lastSeenAt)],
          tight: true,
          cell: ({ lastSeenAt }) => lastSeenAt && formatMoment(lastSeenAt, today),
        },
        {
          head: 'Change',
          facts: [],
          bare: true,
          cell: (account) => (
            <Button kind="quiet" aria-label={`Change ${account.name}`} onClick={() => onChange(account)}>
              Change
            </Button>
          ),
        },
      ]}
    />
  )
}
