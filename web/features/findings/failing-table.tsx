import { FEW } from '../../domain/findings/failing-order.ts'
import { boundedFacts, fact } from '../../parts/readiness/facts.ts'
import { type Column, Table } from '../../ui/table.tsx'
import { countedInWords, figure } from '../../words/format-number.ts'
import { ofAll } from '../../words/of-all.ts'
import type { FailingRow } from './failing-rows.ts'
import { formatNotReached, formatRate, formatRest } from './format-failing.ts'

interface FailingTableProps {
  caption: string
  rows: readonly FailingRow[]
  nameOf: (row: FailingRow) => string
  /** '' where all rows are of one standard. */
  standardOf: (row: FailingRow) => string
  faultOf: (row: FailingRow, code: string) => string
}

/** The list behind the picture, with the faults of each measure on demand. */
export function FailingTable({ caption, rows, nameOf, standardOf, faultOf }: FailingTableProps) {
  const columns: Column<FailingRow>[] = [
    {
      head: 'Measure',
      facts: [fact('Measure', nameOf), fact('Standard', standardOf)],
      cell: (row) => (
        <>
          <b>{nameOf(row)}</b> <span className="muted">{standardOf(row)}</span>
        </>
      ),
    },
    {
      head: 'NO-GO',
      facts: [fact('NO-GO', ({ noGo }) => noGo), fact('Tested', ({ tested }) => tested)],
      numeric: true,
      tight: true,
      cell: ({ noGo, tested }) => ofAll(noGo, tested),
    },
    {
      head: 'Share, and where it lies',
      facts: boundedFacts('Share NO-GO', ({ rate }) => ({ value: rate.rate, interval: rate.interval })),
      numeric: true,
      cell: (row) => (row.tested < FEW ? 'fewer than five tested: says little' : formatRate(row.rate)),
    },
    { head: 'Not reached', numeric: true, cell: ({ notReached }) => formatNotReached(notReached) },
    {
      head: 'Trials incorrect',
      facts: [fact('Trials incorrect', ({ trials }) => trials?.incorrect), fact('Trials', ({ trials }) => trials?.of)],
      numeric: true,
      tight: true,
      cell: ({ trials }) => trials && ofAll(trials.incorrect, trials.of),
    },
    {
      head: 'Against other units',
      facts: [
        fact('Other units NO-GO', ({ rest }) => rest?.noGo),
        fact('Other units tested', ({ rest }) => rest?.tested),
        ...boundedFacts<FailingRow>(
          'Share more than other units',
          ({ rest }) => rest && { value: rest.difference, interval: rest.interval },
        ),
        fact('Verdict', ({ rest }) => rest && VERDICTS[rest.verdict]),
      ],
      bare: true,
      cell: ({ rest }) => formatRest(rest),
    },
    {
      head: 'Faults',
      facts: [
        fact('Faults', (row) =>
          byCount(row)
            .map(({ code, count }) => `${faultOf(row, code)} ${count}`)
            .join('; '),
        ),
      ],
      bare: true,
      cell: (row) => row.faults.length > 0 && <Faults row={row} faultOf={faultOf} />,
    },
  ]
  const shown = columns.filter(
    ({ head }) =>
      (head !== 'Against other units' || rows.some(({ rest }) => rest !== null)) &&
      (head !== 'Not reached' || rows.some(({ notReached }) => notReached !== null)) &&
      (head !== 'Trials incorrect' || rows.some(({ trials }) => trials !== null)),
  )
  return (
    <Table
      caption={caption}
      rows={rows}
      rowKey={({ standard, measure, versions }) => `${standard} ${measure} ${versions.join()}`}
      columns={shown}
    />
  )
}

const VERDICTS = { higher: 'higher', lower: 'lower', 'not-shown': 'no difference shown' } as const

const byCount = ({ faults }: FailingRow) => [...faults].sort((a, b) => b.count - a.count)

function Faults({ row, faultOf }: { row: FailingRow; faultOf: FailingTableProps['faultOf'] }) {
  return (
    <details className="on-demand">
      <summary>{countedInWords(row.faults.length, 'fault')}</summary>
      <ul>
        {byCount(row).map(({ code, count }) => (
          <li key={code}>
            {faultOf(row, code)} <b>{figure(count)}</b>
          </li>
        ))}
      </ul>
    </details>
  )
}
