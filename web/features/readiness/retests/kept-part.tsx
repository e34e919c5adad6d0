import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { daysBetween } from '#calendar/plain-date.ts'
import type { KeptGo } from '#contract/readiness/retests.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification } from '#contract/standards/certifications.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { keptGosQuery } from '../../../api/readiness/retests.ts'
import { fullUnitName } from '../../../domain/soldiers/unit-tree.ts'
import { certificationTitle, standardTitle } from '../../../domain/standards/titles.ts'
import { FilledBy } from '../../../parts/first-steps/filled-by.tsx'
import { dayFact, fact, soldierFacts } from '../../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Empty } from '../../../ui/empty.tsx'
import { Part } from '../../../ui/part.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { counted } from '../../../words/format-number.ts'

interface KeptPartProps {
  asOf: string
  unitId: string
  units: readonly Unit[]
  standards: readonly Standard[]
  certifications: readonly Certification[]
}

/** GOs that stop counting within thirty days, so that what is missing must be in by then. */
export function KeptPart({ asOf, unitId, units, standards, certifications }: KeptPartProps) {
  const kept = useQuery(keptGosQuery({ asOf, ...(unitId ? { unitId } : {}) }))
  return (
    <Part query={kept}>
      {kept.data?.length === 0 && (
        <Empty>
          No GO stops counting within thirty days.
          <FilledBy steps={['test-days']} />
        </Empty>
      )}
      {kept.data && kept.data.length > 0 && (
        <Table<KeptGo>
          caption="GOs that stop counting soon"
          rows={kept.data}
          rowKey={({ soldierId, certification, standard }) => `${soldierId} ${certification} ${standard}`}
          columns={[
            {
              head: 'Soldier',
              facts: [...soldierFacts()],
              tight: 'wide',
              cell: (go) => (
                <Link href={addressTo(paths.candidate, { id: go.soldierId })}>
                  <b>
                    <bdi>
                      {go.grade} {go.name}
                    </bdi>
                  </b>
                </Link>
              ),
            },
            { head: 'Unit', bare: true, tight: 'wide', cell: (go) => <bdi>{fullUnitName(units, go.unitId)}</bdi> },
            {
              head: 'GO in',
              facts: [
                fact('GO in', ({ standard }) => standardTitle(standards, standard)),
                fact('Toward', ({ certification }) => certificationTitle(certifications, certification)),
              ],
              cell: (go) => (
                <>
                  {standardTitle(standards, go.standard)}{' '}
                  <span className="muted">toward {certificationTitle(certifications, go.certification)}</span>
                </>
              ),
            },
            { head: 'On', facts: [dayFact('On', ({ on }) => on)], tight: true, cell: ({ on }) => formatDay(on, asOf) },
            {
              head: 'Counts until',
              facts: [
                dayFact('Counts until', ({ countsUntil }) => countsUntil),
                fact('Days left', ({ countsUntil }) => daysBetween(asOf, countsUntil)),
              ],
              cell: ({ countsUntil }) =>
                `${formatDay(countsUntil, asOf)}, ${counted(daysBetween(asOf, countsUntil), 'day')}`,
            },
          ]}
        />
      )}
    </Part>
  )
}
