import { Link } from 'wouter'
import type { Suspension } from '#contract/readiness/suspensions.ts'
import { dayFact, fact, soldierFacts } from '../../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Button } from '../../../ui/button.tsx'
import { Table } from '../../../ui/table.tsx'
import type { Pages } from '../../../ui/table-files.tsx'
import { formatSpan } from './format-suspensions.ts'

interface SuspensionsTableProps {
  items: readonly Suspension[]
  pages: Pages
  today: string
  titleOf: (certification: string) => string
  /** Null for those who may not lift. */
  onLift: ((suspension: Suspension) => void) | null
}

/** Who is or was suspended, from when until when, and why. */
export function SuspensionsTable({ items, pages, today, titleOf, onLift }: SuspensionsTableProps) {
  return (
    <Table<Suspension>
      caption="Suspensions"
      pages={pages}
      rows={items}
      rowKey={({ id }) => id}
      columns={[
        {
          head: 'Soldier',
          facts: [...soldierFacts()],
          cell: ({ soldierId, grade, name }) => (
            <Link href={addressTo(paths.candidate, { id: soldierId })}>
              <bdi>
                {grade} {name}
              </bdi>
            </Link>
          ),
        },
        { head: 'Certification', bare: true, tight: 'wide', cell: ({ certification }) => titleOf(certification) },
        {
          head: 'When',
          facts: [dayFact('From', ({ from }) => from), dayFact('Lifted on', ({ lift }) => lift)],
          bare: true,
          tight: 'wide',
          cell: (one) => formatSpan(one, today),
        },
        {
          head: 'Why',
          facts: [fact('Why', ({ reason }) => reason), fact('Why lifted', ({ liftReason }) => liftReason)],
          bare: true,
          cell: ({ reason, liftReason }) => (
            <>
              <bdi>{reason}</bdi>
              {liftReason && (
                <>
                  {' '}
                  <span className="muted">
                    Lifted: <bdi>{liftReason}</bdi>
                  </span>
                </>
              )}
            </>
          ),
        },
        ...(onLift
          ? [
              {
                head: 'Lift',
                facts: [],
                bare: true,
                cell: (one: Suspension) =>
                  one.lift === null ? (
                    <Button kind="quiet" aria-label={`Lift the suspension of ${one.name}`} onClick={() => onLift(one)}>
                      Lift
                    </Button>
                  ) : null,
              },
            ]
          : []),
      ]}
    />
  )
}
