import { Link } from 'wouter'
import type { ForecastDates } from '#contract/readiness-forecast/readiness-forecast.ts'
import { formatEnough, formatExpected } from '../../domain/readiness/format-ahead.ts'
import { addressTo, paths } from '../../paths.ts'
import { Empty } from '../../ui/empty.tsx'
import { Table } from '../../ui/table.tsx'
import { formatDay } from '../../words/format-day.ts'
import { FilledBy } from '../first-steps/filled-by.tsx'

interface AheadLinesProps {
  found: ForecastDates
  today: string
  titleOf: (certification: string) => string
}

type Item = ForecastDates['items'][number]

/** The next days that matter, a line for each certification asked for; each leads to what it rests on. */
export function AheadLines({ found: { items, unitId }, today, titleOf }: AheadLinesProps) {
  if (items.length === 0)
    return (
      <Empty>
        Nobody here is required to hold a certification that is asked for.
        <FilledBy steps={['certifications', 'roster']} />
      </Empty>
    )
  return (
    <Table<Item>
      caption="Ready on the days ahead"
      rows={items}
      rowKey={({ on, certification }) => `${on} ${certification}`}
      columns={[
        {
          head: 'On',
          tight: true,
          cell: ({ on, certification }) => (
            <Link href={addressTo(paths.ahead, { on, certification, unitId })}>
              <b>
                {formatDay(on, today)}, {titleOf(certification)}
              </b>
            </Link>
          ),
        },
        { head: 'Certified', bare: true, cell: (item) => formatExpected(item) },
        {
          head: 'For the ceremonies',
          bare: true,
          cell: (item) =>
            item.need ? `${item.need.posts} ${item.need.posts === 1 ? 'post' : 'posts'}; ${formatEnough(item)}` : null,
        },
      ]}
    />
  )
}
