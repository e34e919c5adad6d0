import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Effect } from '#contract/standards/effects.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { More } from '../../ui/more.tsx'
import { Table } from '../../ui/table.tsx'
import { formatDayInFull } from '../../words/format-day.ts'
import { counted } from '../../words/format-number.ts'
import { formatEffect, formatEffectCount, formatStands } from './format-effect.ts'

interface EffectViewProps {
  /** The pages got so far, the first with the counts of all. */
  pages: readonly Effect[]
  titleOf: (certification: string) => string
  units: readonly Unit[]
  today: string
  loading: boolean
  onMore: () => void
}

/** Whose standing would change: in a sentence, by kind of change, and person by person. */
export function EffectView({ pages, titleOf, units, today, loading, onMore }: EffectViewProps) {
  const first = pages[0]!
  const items = pages.flatMap((page) => page.items)
  return (
    <div className="standard-effect" role="status">
      <p>
        <b>{formatEffect(first, formatDayInFull(first.asOf, today))}</b>{' '}
        <span className="muted">
          {counted(first.people, 'soldier')} compared; {counted(first.sheets, 'sheet')} would change. Nothing is stored
          yet.
        </span>
      </p>
      <ul>
        {first.counts.map((count) => (
          <li key={JSON.stringify(count)}>{formatEffectCount(count, titleOf(count.certification))}</li>
        ))}
      </ul>
      {items.length > 0 && (
        <Table
          caption="Whose standing would change"
          rows={items}
          rowKey={({ soldierId, certification }) => `${soldierId} ${certification}`}
          columns={[
            {
              head: 'Soldier',
              cell: ({ grade, name, rosterNumber }) => (
                <>
                  <b>
                    <bdi>
                      {grade} {name}
                    </bdi>
                  </b>{' '}
                  <span className="muted">{rosterNumber}</span>
                </>
              ),
            },
            { head: 'Unit', bare: true, cell: ({ unitId }) => fullUnitName(units, unitId) },
            { head: 'Certification', bare: true, cell: ({ certification }) => titleOf(certification) },
            { head: 'Before', cell: ({ before }) => formatStands(before, today) },
            { head: 'After', cell: ({ after }) => formatStands(after, today) },
          ]}
        />
      )}
      <More hasMore={pages.at(-1)?.next != null} loading={loading} onMore={onMore}>
        Show more of them
      </More>
    </div>
  )
}
