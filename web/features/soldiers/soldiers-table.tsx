import { Link } from 'wouter'
import type { Soldier, Unit } from '#contract/soldiers/soldiers.ts'
import { listName } from '../../domain/soldiers/format-person.ts'
import { fact } from '../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../paths.ts'
import { Table } from '../../ui/table.tsx'
import type { Pages } from '../../ui/table-files.tsx'
import { formatWhere } from './format-people.ts'

interface SoldiersTableProps {
  soldiers: readonly Soldier[]
  pages: Pages
  units: readonly Unit[]
  /** Whether anybody carries arms. */
  carries: boolean
  today: string
}

/** People, with what a roster says of each. */
export function SoldiersTable({ soldiers, pages, units, carries, today }: SoldiersTableProps) {
  return (
    <Table<Soldier>
      caption="Soldiers"
      pages={pages}
      rows={soldiers}
      rowKey={({ id }) => id}
      columns={[
        {
          head: 'Soldier',
          facts: [
            fact('Grade', ({ grade }) => grade),
            fact('Name', ({ familyName, givenName }) => `${familyName}, ${givenName}`),
          ],
          cell: (soldier) => (
            <Link href={addressTo(paths.person, { id: soldier.id })}>
              <b>
                <bdi>{listName(soldier)}</bdi>
              </b>
            </Link>
          ),
        },
        { head: 'Roster number', bare: true, cell: ({ rosterNumber }) => rosterNumber },
        { head: 'Unit', bare: true, cell: (soldier) => formatWhere(soldier, units, today) },
        ...(carries ? [{ head: 'Arms', cell: armsOf }] : []),
      ]}
    />
  )
}

const armsOf = ({ arms }: Soldier): string => arms.join(', ') || 'none'
