import type { OwnFactors } from '#contract/accounts/factors.ts'
import { momentFact } from '../../../parts/readiness/facts.ts'
import { Button } from '../../../ui/button.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatMoment } from '../../../words/format-moment.ts'

/** A factor that can be taken away. */
export type Removable =
  | { readonly kind: 'app'; readonly name: string }
  | { readonly kind: 'passkey'; readonly id: string; readonly name: string }

type Row = Removable & { readonly createdAt: string; readonly lastUsedAt: string | null }

const rowsOf = ({ app, passkeys }: OwnFactors): Row[] => [
  ...(app ? [{ kind: 'app' as const, name: 'Authenticator app', ...app }] : []),
  ...passkeys.map((passkey) => ({ kind: 'passkey' as const, ...passkey })),
]

interface FactorsTableProps {
  factors: OwnFactors
  today: string
  onRemove: (removable: Removable) => void
}

/** The factors that count: since when, when last used, and the way to take one away. */
export function FactorsTable({ factors, today, onRemove }: FactorsTableProps) {
  return (
    <Table<Row>
      caption="Second factors"
      rows={rowsOf(factors)}
      rowKey={(row) => (row.kind === 'app' ? 'app' : row.id)}
      columns={[
        {
          head: 'Factor',
          cell: ({ kind, name }) =>
            kind === 'app' ? (
              <b>{name}</b>
            ) : (
              <>
                Passkey{' '}
                <b>
                  <bdi>{name}</bdi>
                </b>
              </>
            ),
        },
        {
          head: 'Since',
          facts: [momentFact('Since', ({ createdAt }) => createdAt)],
          tight: true,
          cell: ({ createdAt }) => formatMoment(createdAt, today),
        },
        {
          head: 'Last used',
          facts: [momentFact('Last used', ({ lastUsedAt }) => lastUsedAt)],
          tight: true,
          cell: ({ lastUsedAt }) => (lastUsedAt ? formatMoment(lastUsedAt, today) : 'Not yet'),
        },
        {
          head: 'Take away',
          facts: [],
          bare: true,
          cell: (row) => (
            <Button kind="quiet" aria-label={`Take away: ${row.name}`} onClick={() => onRemove(row)}>
              Take away
            </Button>
          ),
        },
      ]}
    />
  )
}
