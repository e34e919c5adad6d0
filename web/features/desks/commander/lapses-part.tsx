import { useInfiniteQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { Lapse } from '#contract/readiness/readiness.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { lapsesQuery } from '../../../api/readiness/readiness-trend.ts'
import { fullUnitName } from '../../../domain/soldiers/unit-tree.ts'
import { dayFact, soldierFacts } from '../../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../../paths.ts'
import { More } from '../../../ui/more.tsx'
import { Part } from '../../../ui/part.tsx'
import { Section } from '../../../ui/section.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { formatLapses } from './format-commander.ts'

interface LapsesPartProps {
  filters: { unitId?: string | undefined; certification?: string | undefined }
  units: readonly Unit[]
  today: string
  titleOf: (certification: string) => string
}

/** Whose certification ends within three months unless they renew, by its last day. */
export function LapsesPart({ filters, units, today, titleOf }: LapsesPartProps) {
  const lapses = useInfiniteQuery(lapsesQuery(filters))
  const items = lapses.data?.pages.flatMap((page) => page.items)
  return (
    <Section title="Who lapses" note="by the last day they can stand">
      <Part query={lapses}>
        {items && <p className="part-answer">{formatLapses(items, lapses.hasNextPage, today)}</p>}
        {items && items.length > 0 && (
          <Table<Lapse>
            caption="Certifications that end within three months"
            rows={items}
            pages={lapses}
            rowKey={({ soldierId, certification }) => `${soldierId} ${certification}`}
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
              {
                head: 'Last day',
                facts: [dayFact('Last day', ({ validThrough }) => validThrough)],
                tight: true,
                cell: ({ validThrough }) => formatDay(validThrough, today),
              },
              { head: 'Certification', bare: true, cell: ({ certification }) => titleOf(certification) },
              { head: 'Unit', bare: true, cell: ({ unitId }) => <bdi>{fullUnitName(units, unitId)}</bdi> },
            ]}
          />
        )}
        <More hasMore={lapses.hasNextPage} loading={lapses.isFetchingNextPage} onMore={lapses.fetchNextPage}>
          Show more who lapse
        </More>
      </Part>
    </Section>
  )
}
