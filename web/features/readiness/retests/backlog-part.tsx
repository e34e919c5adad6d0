import { useQuery } from '@tanstack/react-query'
import { backlogQuery } from '../../../api/readiness/retests.ts'
import { PlotFigure } from '../../../charts/plot/plot-figure.tsx'
import { dayFact } from '../../../parts/readiness/facts.ts'
import { Part } from '../../../ui/part.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { figure } from '../../../words/format-number.ts'
import { backlogPlot } from './backlog-plot.ts'

const BACKLOG_REM = 13

/** How the backlog grew and shrank over eighteen months, drawn and as a table. */
export default function BacklogPart({ asOf, unitId, today }: { asOf: string; unitId: string; today: string }) {
  const backlog = useQuery(backlogQuery({ asOf, ...(unitId ? { unitId } : {}) }))
  const points = backlog.data?.points
  return (
    <Part query={backlog}>
      {points && (
        <>
          <PlotFigure
            plot={backlogPlot(points)}
            label={`Backlog over time: ${points.at(-1)!.open} open at the end.`}
            height={BACKLOG_REM}
          />
          <details>
            <summary>In figures</summary>
            <Table<(typeof points)[number]>
              caption="Backlog over time"
              rows={points.toReversed()}
              rowKey={({ day }) => day}
              columns={[
                {
                  head: 'At the end of',
                  facts: [dayFact('At the end of', ({ day }) => day)],
                  tight: true,
                  cell: ({ day }) => formatDay(day, today),
                },
                { head: 'Open', numeric: true, cell: ({ open }) => figure(open) },
                { head: 'Past due', numeric: true, cell: ({ pastDue }) => figure(pastDue) },
                { head: 'Review needed', numeric: true, cell: ({ needsReview }) => figure(needsReview) },
              ]}
            />
          </details>
        </>
      )}
    </Part>
  )
}
