import { Link } from 'wouter'
import type { WaitingAward } from '#contract/readiness/commanders-words.ts'
import { dayFact, soldierFacts } from '../../../parts/readiness/facts.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Table } from '../../../ui/table.tsx'
import type { Pages } from '../../../ui/table-files.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { formatForce } from './format-approvals.ts'
import './approvals.css'

/** What tells one award that waits from another. */
export const keyOf = ({ sheetId, certification }: WaitingAward) => `${sheetId} ${certification}`

interface WaitingTableProps {
  items: readonly WaitingAward[]
  pages: Pages
  today: string
  titleOf: (code: string) => string
  maySign: boolean
  isTicked: (item: WaitingAward) => boolean
  onTick: (item: WaitingAward, on: boolean) => void
}

/** Certifications that wait for a signature, each with a tick for whoever may sign. */
export function WaitingTable({ items, pages, today, titleOf, maySign, isTicked, onTick }: WaitingTableProps) {
  return (
    <Table<WaitingAward>
      caption="Certifications that wait for a signature"
      pages={pages}
      rows={items}
      rowKey={keyOf}
      columns={[
        {
          head: 'Soldier',
          facts: [...soldierFacts()],
          cell: (item) => (
            <span className="approvals-who">
              {maySign && (
                <label className="tick">
                  <input
                    type="checkbox"
                    aria-label={`Tick ${item.name}, ${titleOf(item.certification)}`}
                    checked={isTicked(item)}
                    onChange={(event) => onTick(item, event.target.checked)}
                  />
                </label>
              )}
              <Link href={addressTo(paths.candidate, { id: item.soldierId })}>
                <bdi>
                  {item.grade} {item.name}
                </bdi>
              </Link>
            </span>
          ),
        },
        { head: 'Certification', bare: true, tight: 'wide', cell: (item) => titleOf(item.certification) },
        {
          head: 'Tests passed',
          tight: true,
          facts: [dayFact('Tests passed', ({ awardedOn }) => awardedOn)],
          cell: ({ awardedOn }) => formatDay(awardedOn, today),
        },
        {
          head: 'In force if signed today',
          facts: [
            dayFact('From, if signed today', ({ inForceFrom }) => inForceFrom),
            dayFact('Valid through', ({ validThrough }) => validThrough),
          ],
          cell: (item) => formatForce(item, today),
        },
        {
          head: 'May stand until then',
          facts: [dayFact('Certified through', ({ certifiedThrough }) => certifiedThrough)],
          cell: ({ certifiedThrough }) =>
            certifiedThrough === null ? 'no' : `yes, through ${formatDay(certifiedThrough, today)}`,
        },
      ]}
    />
  )
}
